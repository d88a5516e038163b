-- alike_index: one row a set of walls that are alike. index = 100 · w^α · d^β · s^γ, each factor its mean over the draws
-- (the draws of the load and of the assembly are independent, so the mean of the product is the product of the means).
-- index_low and index_high are the exact quantiles over the draws (spread.ts).
CREATE OR REPLACE TABLE alike_index AS
SELECT
  a.alike, a.b, a.load_case, a.assembly_case, a.first_wall,
  t.wetting_l_m2, t.w_mean,
  round(100 * t.w_mean * m.ds_mean, 6) AS index,
  s.index_low, s.index_high
FROM alike a
JOIN wetting t ON t.b = a.b AND t.load_case = a.load_case
LEFT JOIN assembly m USING (assembly_case)
LEFT JOIN spread s USING (alike);
