-- alike: one row a set of walls of one building that share load_case and assembly_case (NULL where not scored): what is
-- worked out for one of them holds for all. In an order in which neighbours have like cases and like rain, for spread.
--   first_wall   the least of their ordinals
CREATE OR REPLACE TABLE alike AS
SELECT
  CAST(row_number() OVER (ORDER BY load_case, rain_3, rain_1, b, assembly_case) - 1 AS INTEGER) AS alike,
  c.b, load_case, assembly_case, first_wall
FROM (
  SELECT b, load_case, assembly_case, min(wall) AS first_wall
  FROM wall_case
  GROUP BY b, load_case, assembly_case
) c
JOIN building USING (b);
