-- need: one row a wall.
--   need_code_then, need_code_now, need_practice   'asks: <rule>', 'does not ask', 'cannot tell: <fact>'
--   gap_asked_mm   mm; what drainage is measured against: the largest of the least gap, code now, and practice
CREATE OR REPLACE TABLE need AS
WITH practice AS (
  SELECT
    need_case, asks_gap_mm,
    asks,
    CASE
      WHEN asks THEN 'asks: ' || rule_id
      WHEN NOT asks THEN 'does not ask'
      ELSE 'cannot tell: ' || missing
    END AS need_practice
  FROM rule_answer
  WHERE code = 'practice'
)
SELECT
  w.wall,
  t.need_code_then,
  n.need_code_now,
  p.need_practice,
  n.code_gap_mm, n.code_layers, n.code_efficiency_pct,
  greatest(
    k.least_gap_mm,
    coalesce(n.code_gap_mm, 0),
    CASE WHEN p.asks AND k.practice_counts = 1 THEN k.practice_gap_mm ELSE 0 END
  ) AS gap_asked_mm
FROM need_wall w
JOIN need_now n USING (need_case)
JOIN practice p USING (need_case)
LEFT JOIN need_then t ON t.need_case = w.need_case AND t.installed_used IS NOT DISTINCT FROM w.installed_used, k;
