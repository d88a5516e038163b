-- drainage_state: one row a wall, what is on record behind its cladding. A view: worked out when it is read.
--   absent, bond break only, marginal, provided, not applicable, no record
CREATE OR REPLACE VIEW drainage_state AS
WITH measured AS (
  SELECT
    w.wall,
    w.drainage_used,
    coalesce(w.solid AND w.material_group IN ('plaster', 'adhered'), false) AS on_solid,
    t.state,
    w.gap_used_mm,
    greatest(
      -- least() and greatest() pass over NULL, so a blank gap is answered first.
      CASE WHEN w.gap_used_mm IS NULL THEN 0 ELSE least(1, w.gap_used_mm / greatest(n.code_gap_mm, k.least_gap_mm)) END,
      CASE
        WHEN w.drainage_eff_pct >= k.stated_efficiency_pct AND n.code_efficiency_pct IS NOT NULL THEN 1
        WHEN w.material = 'eifs_drained' AND w.drainage_eff_pct IS NULL AND w.gap_used_mm IS NULL THEN 1
        ELSE 0
      END
    ) AS adequacy_against_code
  FROM wall w
  JOIN need_wall USING (wall)
  JOIN need_today n USING (need_case)
  LEFT JOIN drainage t ON t.drainage = w.drainage_used, k
)
SELECT
  wall,
  CASE
    WHEN state = 'not applicable' THEN state
    WHEN adequacy_against_code >= k.provided_adequacy THEN 'provided'
    WHEN on_solid THEN 'not applicable'
    WHEN drainage_used IS NULL AND gap_used_mm IS NULL THEN 'no record'
    WHEN state IS NOT NULL THEN state
    ELSE 'marginal'
  END AS drainage_state
FROM measured, k;
