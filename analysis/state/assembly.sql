-- assembly: one row an assembly_case, means over its draws; sums are of whole numbers.
CREATE OR REPLACE TABLE assembly AS
SELECT
  assembly_case,
  sum(weight) AS total,
  round(sum(weight * round(ds * 1e6)) / sum(weight) / 1e6, 6) AS ds_mean,
  round(sum(weight * round(d * 1e6)) / sum(weight) / 1e6, 6) AS d_mean,
  round(sum(weight * round(s * 1e6)) / sum(weight) / 1e6, 6) AS s_mean,
  round(sum(weight * round(adequacy * 1e6)) / sum(weight) / 1e6, 6) AS adequacy_mean
FROM assembly_draw
GROUP BY assembly_case;
