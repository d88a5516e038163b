-- building_index: one row a building. The index is the greatest mean index of its scored walls, and that wall is
-- named; a building without a scored wall, or without rain, has no index.
--   index_spread   100 · (1 − Π (1 − min(index, cap)/100)^share), share of the wall area
--   index_weighted_area_m2   Σ index/100 · area: a sorting weight, not an area of damage
CREATE OR REPLACE TABLE building_index AS
WITH area AS (
  SELECT b, count(*) AS walls, count(area_used_m2) = count(*) AS all_known, sum(CAST(round(area_used_m2 * 1e3) AS BIGINT)) AS area
  FROM wall_case
  WHERE assembly_case IS NOT NULL
  GROUP BY b
),
total AS (
  SELECT
    c.b,
    sum(CAST(round(i.index * c.area_used_m2 * 1e4) AS BIGINT)) AS weighted,
    sum(CAST(round(
      ln(1 - least(i.index, k.spread_cap) / 100)
      * CASE WHEN a.all_known AND a.area > 0 THEN round(c.area_used_m2 * 1e3) / a.area ELSE 1.0 / a.walls END * 1e9
    ) AS BIGINT)) AS log_spread
  FROM wall_case c
  JOIN alike_index i ON i.b = c.b AND i.load_case = c.load_case AND i.assembly_case = c.assembly_case
  JOIN area a ON a.b = c.b, k
  GROUP BY c.b
),
worst AS (
  SELECT *
  FROM alike_index
  WHERE assembly_case IS NOT NULL
  QUALIFY row_number() OVER (
    PARTITION BY b ORDER BY index DESC NULLS LAST, index_high DESC NULLS LAST, wetting_l_m2 DESC, first_wall
  ) = 1
)
SELECT
  w.b, w.alike, w.first_wall AS wall, w.index, w.index_low, w.index_high, w.wetting_l_m2, m.adequacy_mean, m.s_mean,
  CASE WHEN a.all_known AND w.index IS NOT NULL THEN round(t.weighted / 1e6, 2) END AS index_weighted_area_m2,
  CASE WHEN w.index IS NOT NULL THEN round(100 * (1 - exp(t.log_spread / 1e9)), 6) END AS index_spread
FROM worst w
JOIN area a USING (b)
JOIN total t USING (b)
JOIN assembly m USING (assembly_case);
