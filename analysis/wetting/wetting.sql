-- wetting: one row a building and load_case.
--   wetting_l_m2   L/m² yr at the median rain, mean over the draws
--   w_mean         mean of w^α over the draws and the five equal nodes of the rain
-- Sums are of whole numbers, so that their order cannot change a digit.
CREATE OR REPLACE TABLE wetting AS
WITH coefficient AS (
  SELECT load_case, l_m2_per_mm, sum(weight) AS weight
  FROM load_draw
  GROUP BY ALL
),
total AS (
  SELECT
    load_case,
    sum(weight) AS weight,
    round(sum(weight * round(l_m2_per_mm * 1e9)) / sum(weight) / 1e9, 9) AS l_m2_per_mm
  FROM coefficient
  GROUP BY load_case
),
pair AS (
  SELECT DISTINCT l.b, l.load_case, s.rain_mm, s.rain_1, s.rain_2, s.rain_3, s.rain_4, s.rain_5
  FROM wall_load l
  JOIN site s USING (b)
),
load AS (
  SELECT
    p.b, p.load_case,
    sum(c.weight * (
      load_of(c.l_m2_per_mm, p.rain_1, k.half_load_l_m2, k.weight_load)
      + load_of(c.l_m2_per_mm, p.rain_2, k.half_load_l_m2, k.weight_load)
      + load_of(c.l_m2_per_mm, p.rain_3, k.half_load_l_m2, k.weight_load)
      + load_of(c.l_m2_per_mm, p.rain_4, k.half_load_l_m2, k.weight_load)
      + load_of(c.l_m2_per_mm, p.rain_5, k.half_load_l_m2, k.weight_load)
    )) AS millionths
  FROM pair p
  JOIN coefficient c USING (load_case), k
  WHERE p.rain_mm IS NOT NULL
  GROUP BY ALL
)
SELECT
  p.b, p.load_case,
  round(t.l_m2_per_mm * p.rain_mm, 5) AS wetting_l_m2,
  round(l.millionths / (5 * t.weight) / 1e6, 6) AS w_mean
FROM pair p
JOIN total t USING (load_case)
LEFT JOIN load l USING (b, load_case);
