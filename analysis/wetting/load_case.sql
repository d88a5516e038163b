-- load_case: one row a distinct set of the facts that decide how much of the rain a wall meets (NULL: no record).
-- The azimuth counts only with a weather record; without one every direction is alike.
CREATE OR REPLACE TABLE load_case AS
SELECT CAST(row_number() OVER () - 1 AS INTEGER) AS load_case, *
FROM (
  SELECT DISTINCT s.terrain, s.height_class, s.roof, w.runoff, s.use_group, f.known AS azimuth
  FROM wall w
  JOIN site s USING (b)
  LEFT JOIN facing f ON f.known = round(w.azimuth_deg) % 360
  ORDER BY ALL
);
