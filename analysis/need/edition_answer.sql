-- edition_answer: one row a need_case and edition that may govern it.
--   answer    2 asks, 1 cannot tell, 0 does not ask: the greatest over the edition's rules (Kleene's OR)
--   rule_id   the most demanding rule that asks; gap_mm, layers what it asks
--   missing   the fact that would decide; 'which code was in force' where the edition has no row here
CREATE OR REPLACE TABLE edition_answer AS
SELECT
  c.need_case, c.set_region, c.code_irc, c.fact_code, e.code, e.edition,
  count(a.rule_id) > 0 AS has_row,
  coalesce(max(CASE WHEN a.asks THEN 2 WHEN a.asks IS NULL AND a.rule_id IS NOT NULL THEN 1 WHEN NOT a.asks THEN 0 END), 1)
    AS answer,
  arg_max(a.rule_id, coalesce(a.asks_gap_mm, 0) * 1e4 + coalesce(a.asks_efficiency_pct, 0) * 10 + length(a.rule_id) / 1e3)
    FILTER (WHERE a.asks) AS rule_id,
  max(a.asks_gap_mm) FILTER (WHERE a.asks) AS gap_mm,
  max(a.asks_layers) FILTER (WHERE a.asks) AS layers,
  max(a.asks_efficiency_pct) FILTER (WHERE a.asks) AS efficiency_pct,
  coalesce(min(a.missing) FILTER (WHERE a.asks IS NULL), 'which code was in force') AS missing
FROM need_case c
JOIN editions e
  ON e.country = c.country
  AND CASE c.code_irc WHEN true THEN e.residential = 'yes' WHEN false THEN e.general = 'yes' ELSE true END
LEFT JOIN rule_answer a
  ON a.need_case = c.need_case AND a.code = e.code
  AND e.year_from BETWEEN a.edition_from AND a.edition_to
GROUP BY ALL;
