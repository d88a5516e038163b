-- wall_index: one row a wall, what holds for all walls alike. A view: joined when it is read.
CREATE OR REPLACE VIEW wall_index AS
SELECT
  c.wall, c.b, c.load_case, c.assembly_case,
  i.wetting_l_m2, i.w_mean, m.ds_mean, m.d_mean, m.s_mean, m.adequacy_mean,
  i.index, i.index_low, i.index_high
FROM wall_case c
JOIN alike_index i
  ON i.b = c.b AND i.load_case = c.load_case AND i.assembly_case IS NOT DISTINCT FROM c.assembly_case
LEFT JOIN assembly m ON m.assembly_case = c.assembly_case;
