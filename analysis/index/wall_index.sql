-- wall_index: one row a wall. index_wall = 100 · w^α · d^β · s^γ, each factor its mean over the draws (the draws
-- of the load and of the assembly are independent, so the mean of the product is the product of the means).
-- index_low and index_high are the exact quantiles over the draws (interval.ts).
CREATE OR REPLACE TABLE wall_index AS
SELECT
  c.wall, c.b, c.load_case, c.assembly_case,
  t.wetting_l_m2, t.w_mean, a.ds_mean, a.d_mean, a.s_mean, a.adequacy_mean,
  round(100 * t.w_mean * a.ds_mean, 6) AS index,
  i.index_low, i.index_high
FROM wall_case c
LEFT JOIN wetting t ON t.b = c.b AND t.load_case = c.load_case
LEFT JOIN assembly a USING (assembly_case)
LEFT JOIN wall_interval i USING (wall);
