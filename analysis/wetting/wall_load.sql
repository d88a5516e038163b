-- wall_load: one row a wall, the load_case it belongs to.
CREATE OR REPLACE TABLE wall_load AS
SELECT w.wall, w.b, c.load_case
FROM wall w
JOIN site s USING (b)
LEFT JOIN facing f ON f.known = round(w.azimuth_deg) % 360
JOIN load_case c
  ON c.terrain IS NOT DISTINCT FROM s.terrain AND c.height_class IS NOT DISTINCT FROM s.height_class
  AND c.roof IS NOT DISTINCT FROM s.roof AND c.runoff IS NOT DISTINCT FROM w.runoff AND c.use_group = s.use_group
  AND c.azimuth IS NOT DISTINCT FROM f.known;
