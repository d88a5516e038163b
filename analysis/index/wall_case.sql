-- wall_case: one row a wall, the load_case and the assembly_case it belongs to (NULL where it is not scored), and its area.
CREATE OR REPLACE TABLE wall_case AS
SELECT
  w.wall, w.b, l.load_case,
  CASE WHEN w.scored THEN a.assembly_case END AS assembly_case,
  CASE WHEN w.scored THEN w.area_used_m2 END AS area_used_m2
FROM wall w
JOIN site s USING (b)
LEFT JOIN facing f ON f.known = round(w.azimuth_deg) % 360
JOIN load_case l
  ON l.terrain IS NOT DISTINCT FROM s.terrain AND l.height_class IS NOT DISTINCT FROM s.height_class
  AND l.roof IS NOT DISTINCT FROM s.roof AND l.runoff IS NOT DISTINCT FROM w.runoff AND l.use_group = s.use_group
  AND l.azimuth IS NOT DISTINCT FROM f.known
JOIN need_wall n ON n.wall = w.wall
JOIN need_today t ON t.need_case = n.need_case
LEFT JOIN assembly_case a
  ON a.material IS NOT DISTINCT FROM w.material AND a.drainage_used IS NOT DISTINCT FROM w.drainage_used
  AND a.gap_used_mm IS NOT DISTINCT FROM w.gap_used_mm AND a.sheathing IS NOT DISTINCT FROM w.sheathing
  AND a.drainage_eff_pct IS NOT DISTINCT FROM w.drainage_eff_pct
  AND a.installed_used IS NOT DISTINCT FROM w.installed_used AND a.gap_asked_mm = t.gap_asked_mm;
