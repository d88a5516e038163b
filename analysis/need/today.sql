-- need_today: one row a need_case, what the code asks now, what practice asks, and what both come to.
--   gap_asked_mm   mm; what drainage is measured against: the largest of the least gap, code now, and practice
CREATE OR REPLACE TABLE need_today AS
WITH practice AS (
  SELECT
    need_case, asks,
    CASE
      WHEN asks THEN 'asks: ' || rule_id
      WHEN NOT asks THEN 'does not ask'
      ELSE 'cannot tell: ' || missing
    END AS need_practice
  FROM rule_answer
  WHERE code = 'practice'
)
SELECT
  n.need_case,
  n.need_code_now,
  p.need_practice,
  n.code_gap_mm, n.code_layers, n.code_efficiency_pct,
  greatest(
    k.least_gap_mm,
    coalesce(n.code_gap_mm, 0),
    CASE WHEN p.asks AND k.practice_counts = 1 THEN k.practice_gap_mm ELSE 0 END
  ) AS gap_asked_mm
FROM need_now n
JOIN practice p USING (need_case), k;
