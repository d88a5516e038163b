-- need: one row a wall, in words. A view: joined when it is read.
--   need_code_then, need_code_now, need_practice   'asks: <rule>', 'does not ask', 'cannot tell: <fact>'
--   gap_asked_mm   mm; what drainage is measured against (need_today)
CREATE OR REPLACE VIEW need AS
SELECT w.wall, t.need_code_then, n.* EXCLUDE (need_case)
FROM need_wall w
JOIN need_today n USING (need_case)
LEFT JOIN need_then t ON t.need_case = w.need_case AND t.installed_used IS NOT DISTINCT FROM w.installed_used;
