-- superseded: one row a wall record that does not stand. Where several records speak of one wall, the better source
-- stands, then the newer (undated is oldest); the others keep their place in the file but are not scored.
-- The last keys only make the choice independent of the order of the file.
CREATE OR REPLACE TABLE superseded AS
WITH often AS (
  -- Two walls of one hash only make a few rows more to look at.
  SELECT hash(b, wall_id) AS place
  FROM wall_record
  GROUP BY ALL
  HAVING count(*) > 1
)
SELECT b, wall_id, "file", "row"
FROM wall_record
SEMI JOIN often ON often.place = hash(b, wall_id)
LEFT JOIN record_source o USING (source)
QUALIFY row_number() OVER (
  PARTITION BY b, wall_id
  ORDER BY
    coalesce(o.precedence, 9), recorded_on DESC NULLS LAST, material, drainage, sheathing, gap_mm,
    installed, area_m2, azimuth_deg, runoff, "file", "row"
) > 1;
