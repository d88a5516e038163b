-- need_then: one row a need_case and year of installation, what the editions asked that may have been in force:
-- those of the years installed − lag … installed. It asks only where every one of them asks.
CREATE OR REPLACE TABLE need_then AS
WITH asked AS (SELECT DISTINCT need_case, installed_used FROM need_wall),
read AS (
  SELECT
    q.need_case, q.installed_used, a.fact_code,
    min(a.answer) AS least,
    max(a.answer) AS most,
    bool_and(a.has_row) AS known,
    string_agg(DISTINCT a.rule_id, ' or ' ORDER BY a.rule_id) AS rule_ids,
    min(a.missing) FILTER (WHERE a.answer = 1) AS missing,
    any_value(a.code_irc) IS NULL AND count(DISTINCT a.answer) > 1 AS by_use
  FROM asked q
  JOIN edition_answer a USING (need_case)
  JOIN edition_possible p
    ON p.set_region IS NOT DISTINCT FROM a.set_region AND p.code = a.code AND p.edition = a.edition
    AND p.year = q.installed_used AND NOT p.now
  GROUP BY ALL
)
SELECT
  q.need_case, q.installed_used,
  CASE
    WHEN c.country IS NULL THEN 'cannot tell: region'
    WHEN q.installed_used IS NULL THEN 'cannot tell: installed'
    WHEN NOT coalesce(r.known, false) THEN 'cannot tell: which code was in force'
    WHEN r.least = 2 THEN 'asks: ' || r.rule_ids
    WHEN r.most = 0 THEN 'does not ask'
    ELSE 'cannot tell: ' || coalesce(r.missing, CASE WHEN r.by_use THEN r.fact_code END, 'which code was in force')
  END AS need_code_then
FROM asked q
JOIN need_case c USING (need_case)
LEFT JOIN read r ON r.need_case = q.need_case AND r.installed_used = q.installed_used;
