-- need_case: one row a distinct set of those facts, so that each set is judged once.
CREATE OR REPLACE TABLE need_case AS
SELECT CAST(row_number() OVER () - 1 AS INTEGER) AS need_case, *
FROM (SELECT DISTINCT * EXCLUDE (wall, installed_used) FROM need_fact ORDER BY ALL);
