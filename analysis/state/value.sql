-- assembly_value: one row an assembly_case. How much of the spread of ds each fact behind the cladding explains.
--   ds_square      mean of ds²
--   v_<fact>       variance of the mean of ds given the fact; 0 where the fact is on record
CREATE OR REPLACE TABLE assembly_value AS
WITH level AS (
  SELECT assembly_case, 'material' AS fact, material_drawn AS level, weight, ds FROM assembly_draw
  UNION ALL SELECT assembly_case, 'installed', CAST(installed_drawn AS VARCHAR), weight, ds FROM assembly_draw
  UNION ALL SELECT assembly_case, 'sheathing', sheathing_drawn, weight, ds FROM assembly_draw
  UNION ALL SELECT assembly_case, 'drainage', drainage_drawn, weight, ds FROM assembly_draw
  UNION ALL SELECT assembly_case, 'gap_mm', CAST(adequacy AS VARCHAR), weight, ds FROM assembly_draw
),
given AS (
  SELECT assembly_case, fact, sum(weight) AS weight, sum(weight * round(ds * 1e6)) / sum(weight) / 1e6 AS mean
  FROM level
  GROUP BY assembly_case, fact, level
),
explained AS (
  SELECT g.assembly_case, g.fact, sum(g.weight * (g.mean - a.ds_mean) * (g.mean - a.ds_mean)) / sum(g.weight) AS v
  FROM given g
  JOIN assembly a USING (assembly_case)
  GROUP BY g.assembly_case, g.fact
),
square AS (
  SELECT assembly_case, sum(weight * round(ds * ds * 1e9)) / sum(weight) / 1e9 AS ds_square
  FROM assembly_draw
  GROUP BY assembly_case
)
SELECT
  s.assembly_case,
  round(s.ds_square, 9) AS ds_square,
  round(max(v) FILTER (WHERE fact = 'material'), 9) AS v_material,
  round(max(v) FILTER (WHERE fact = 'installed'), 9) AS v_installed,
  round(max(v) FILTER (WHERE fact = 'sheathing'), 9) AS v_sheathing,
  round(max(v) FILTER (WHERE fact = 'drainage'), 9) AS v_drainage,
  round(max(v) FILTER (WHERE fact = 'gap_mm'), 9) AS v_gap_mm
FROM square s
JOIN explained e USING (assembly_case)
GROUP BY s.assembly_case, s.ds_square;
