-- wetting: one row a building and load_case.
--   wetting_l_m2   L/m² yr, mean over the draws
--   w_mean         mean over the draws of w^α, w = wetting / (wetting + half-load)
-- Sums are of whole numbers, so that their order cannot change a digit.
CREATE OR REPLACE TABLE wetting AS
WITH coefficient AS (
  SELECT
    load_case,
    sum(weight) AS total,
    round(sum(weight * round(l_m2_per_mm * 1e9)) / sum(weight) / 1e9, 9) AS l_m2_per_mm_mean
  FROM load_draw
  GROUP BY load_case
),
pair AS (
  SELECT DISTINCT l.b, l.load_case, s.rain_mm
  FROM wall_load l
  JOIN site s USING (b)
),
draw AS (
  SELECT p.b, p.load_case, d.weight, round(d.l_m2_per_mm * p.rain_mm, 5) AS wetting
  FROM pair p
  JOIN load_draw d USING (load_case)
  WHERE p.rain_mm IS NOT NULL
),
load AS (
  SELECT
    b, load_case,
    sum(weight * round(pow(round(wetting / (wetting + k.half_load_l_m2), 6), k.weight_load) * 1e6)) AS millionths
  FROM draw, k
  GROUP BY b, load_case
)
SELECT
  p.b, p.load_case,
  round(c.l_m2_per_mm_mean * p.rain_mm, 5) AS wetting_l_m2,
  round(l.millionths / c.total / 1e6, 6) AS w_mean
FROM pair p
JOIN coefficient c USING (load_case)
LEFT JOIN load l USING (b, load_case);
