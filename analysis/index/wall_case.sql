-- wall_case: one row a wall, the load_case and the assembly_case it belongs to (NULL where it is not scored), and its area.
CREATE OR REPLACE TABLE wall_case AS
WITH scored AS (
  SELECT w.wall, a.assembly_case, w.area_used_m2
  FROM wall w
  JOIN need_wall USING (wall)
  JOIN need_today n USING (need_case)
  JOIN assembly_case a
    ON a.material IS NOT DISTINCT FROM w.material AND a.drainage_used IS NOT DISTINCT FROM w.drainage_used
    AND a.gap_used_mm IS NOT DISTINCT FROM w.gap_used_mm AND a.sheathing IS NOT DISTINCT FROM w.sheathing
    AND a.drainage_eff_pct IS NOT DISTINCT FROM w.drainage_eff_pct
    AND a.installed_used IS NOT DISTINCT FROM w.installed_used AND a.gap_asked_mm = n.gap_asked_mm
  WHERE w.scored
)
SELECT l.wall, l.b, l.load_case, s.assembly_case, s.area_used_m2
FROM wall_load l
LEFT JOIN scored s USING (wall);
