-- assembly_case: one row a distinct set of the facts behind the cladding of scored walls (NULL: no record).
CREATE OR REPLACE TABLE assembly_case AS
SELECT CAST(row_number() OVER () - 1 AS INTEGER) AS assembly_case, *
FROM (
  SELECT DISTINCT
    w.material, w.drainage_used, w.gap_used_mm, w.drainage_eff_pct, w.sheathing, w.installed_used, n.gap_asked_mm
  FROM wall w
  JOIN need_wall USING (wall)
  JOIN need_today n USING (need_case)
  WHERE w.scored
  ORDER BY ALL
);
