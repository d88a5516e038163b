-- ranking: ranked, with where its rain comes from. What is the same in every row is not stored in each: a million copies of a
-- long text are most of the memory that a browser gives.
CREATE OR REPLACE VIEW ranking AS
SELECT
  ranked.*,
  CASE WHEN rain_mm IS NOT NULL THEN rain_said.source END AS rain_source,
  CASE WHEN rain_mm IS NOT NULL THEN rain_said.period END AS rain_period
FROM ranked, rain_said;
