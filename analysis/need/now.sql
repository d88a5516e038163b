-- need_now: one row a need_case, what the edition taken as today's asks.
-- Where the use is unknown both US codes are read, and where they differ the answer is: cannot tell.
CREATE OR REPLACE TABLE need_now AS
WITH read AS (
  SELECT
    need_case, fact_code,
    min(answer) AS least,
    max(answer) AS most,
    string_agg(rule_id, ' or ' ORDER BY rule_id) AS rule_ids,
    min(missing) FILTER (WHERE answer = 1) AS missing,
    CASE WHEN min(answer) = 2 THEN min(coalesce(gap_mm, 0)) END AS gap_mm,
    CASE WHEN min(answer) = 2 THEN min(layers) END AS layers,
    CASE WHEN min(answer) = 2 THEN min(efficiency_pct) END AS efficiency_pct
  FROM edition_answer a
  JOIN edition_possible p
    ON p.set_region IS NOT DISTINCT FROM a.set_region AND p.code = a.code AND p.edition = a.edition
  WHERE p.now
  GROUP BY ALL
)
SELECT
  c.need_case,
  CASE
    WHEN c.country IS NULL THEN 'cannot tell: region'
    WHEN least = 2 THEN 'asks: ' || rule_ids
    WHEN most = 0 THEN 'does not ask'
    ELSE 'cannot tell: ' || coalesce(missing, read.fact_code)
  END AS need_code_now,
  nullif(gap_mm, 0) AS code_gap_mm, layers AS code_layers, efficiency_pct AS code_efficiency_pct
FROM need_case c
LEFT JOIN read USING (need_case);
