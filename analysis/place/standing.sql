-- standing: one row a wall record. Where several records speak of one wall, the better source stands, then the
-- newer (undated is oldest); the others keep their place in the file but are not scored.
-- The last keys only make the choice independent of the order of the file.
CREATE OR REPLACE TABLE standing AS
SELECT
  wall_record.*,
  row_number() OVER (
    PARTITION BY b, wall_id
    ORDER BY
      coalesce(o.precedence, 9), recorded_on DESC NULLS LAST, material, drainage, sheathing, gap_mm,
      installed, area_m2, azimuth_deg, runoff, wall_record."file", wall_record."row"
  ) = 1 AS stands
FROM wall_record
LEFT JOIN record_source o USING (source);
