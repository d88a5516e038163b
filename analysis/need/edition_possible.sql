-- edition_possible: which editions may have been in force, one row a region with editions of its own (NULL: none set),
-- year and edition. `now` marks the rows that answer for today.
-- Where the user says which edition a region had in force, that one alone counts for its code; else those of the years
-- year − lag … year, and for today the edition that data/rules/editions.csv marks.
CREATE OR REPLACE TABLE edition_possible AS
WITH asked AS (
  SELECT DISTINCT c.set_region, w.installed_used AS year, false AS now
  FROM need_wall w
  JOIN need_case c USING (need_case)
  WHERE w.installed_used IS NOT NULL
  UNION ALL
  SELECT DISTINCT c.set_region, k.as_of, true
  FROM need_case c, k
),
set_at AS (
  SELECT a.set_region, a.year, a.now, f.code, CAST(CAST(arg_max(f.edition, f.from_year) AS INTEGER) AS VARCHAR) AS edition
  FROM asked a
  JOIN edition_in_force f ON f.region = a.set_region AND f.from_year <= a.year
  GROUP BY ALL
),
-- A region that set one edition at that time leaves no room for the older codes of the same buildings.
settled AS (
  SELECT s.set_region, s.year, s.now, max(e.residential = 'yes') AS residential, max(e.general = 'yes') AS general
  FROM set_at s
  JOIN editions e USING (code, edition)
  GROUP BY ALL
)
SELECT a.set_region, a.year, a.now, e.code, e.edition
FROM asked a
CROSS JOIN editions e
LEFT JOIN set_at s
  ON s.set_region IS NOT DISTINCT FROM a.set_region AND s.year = a.year AND s.now = a.now AND s.code = e.code
LEFT JOIN settled t ON t.set_region IS NOT DISTINCT FROM a.set_region AND t.year = a.year AND t.now = a.now, k
WHERE CASE
  WHEN s.edition IS NOT NULL THEN e.edition = s.edition
  WHEN coalesce(t.residential AND e.residential = 'yes', false) OR coalesce(t.general AND e.general = 'yes', false) THEN false
  WHEN a.now THEN e.now = 'yes'
  ELSE e.year_from <= a.year AND e.year_to >= a.year - k.edition_lag_yr
END;
