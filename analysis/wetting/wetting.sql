-- wetting: one row a building and load_case.
--   wetting_l_m2   L/m² yr at the median rain, mean over the draws
--   w_mean         mean of w^α over the draws and the five equal nodes of the rain (spread.ts)
-- Sums are of whole numbers, so that their order cannot change a digit.
CREATE OR REPLACE TABLE wetting AS
WITH total AS (
  SELECT
    load_case,
    round(sum(weight * round(l_m2_per_mm * 1e9)) / sum(weight) / 1e9, 9) AS l_m2_per_mm
  FROM load_draw
  GROUP BY load_case
),
load AS (
  SELECT b, load_case, max(w_mean) AS w_mean
  FROM alike
  LEFT JOIN spread USING (alike)
  GROUP BY b, load_case
)
SELECT load.b, load.load_case, round(t.l_m2_per_mm * s.rain_mm, 5) AS wetting_l_m2, load.w_mean
FROM load
JOIN total t USING (load_case)
JOIN building s ON s.b = load.b;
