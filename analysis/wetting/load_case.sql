-- load_case: one row a distinct set of the facts that decide how much of the rain a wall meets (NULL: no record).
CREATE OR REPLACE TABLE load_case AS
SELECT row_number() OVER () - 1 AS load_case, *
FROM (
  SELECT DISTINCT s.terrain, s.height_class, s.roof, w.runoff, s.use_group
  FROM wall w
  JOIN site s USING (b)
  ORDER BY ALL
);
