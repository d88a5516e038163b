-- tiered: one row a building: what the method found for it, in the units of the method, and its tiers. Numbers are rounded as
-- they are exported. What the record says already (site) and how much each fact explains (fact_share) is joined when it is read.
CREATE OR REPLACE TABLE tiered AS
WITH first_wall AS (
  -- A building without a scored wall shows its first, a recorded one before the rest.
  SELECT b, coalesce(min(wall) FILTER (WHERE kind <> 'remainder'), min(wall)) AS wall
  FROM wall
  ANTI JOIN building_index USING (b)
  GROUP BY b
),
chosen AS (
  SELECT b, wall, wetting_l_m2 FROM building_index
  UNION ALL
  SELECT f.b, f.wall, t.wetting_l_m2
  FROM first_wall f
  JOIN wall_case c ON c.wall = f.wall
  JOIN wetting t ON t.b = c.b AND t.load_case = c.load_case
),
shown AS (
  SELECT
    s.b, c.wall,
    round(c.wetting_l_m2, 2) AS wetting_l_m2,
    d.drainage_state,
    n.need_code_then, n.need_code_now, n.need_practice, n.gap_asked_mm, n.code_gap_mm, n.code_layers,
    round(i.index, 2) AS index, round(i.index_low, 2) AS index_low, round(i.index_high, 2) AS index_high,
    round(i.index_spread, 2) AS index_spread, i.index_weighted_area_m2,
    round(i.adequacy_mean, 4) AS adequacy, round(i.s_mean, 4) AS susceptibility,
    coalesce(s.leak_history = 'reported', false) AS leak
  FROM building s
  JOIN chosen c USING (b)
  LEFT JOIN building_index i ON i.b = s.b
  LEFT JOIN need n ON n.wall = c.wall
  LEFT JOIN drainage_state d ON d.wall = c.wall
)
SELECT
  shown.* EXCLUDE (leak),
  CASE WHEN leak THEN 1 ELSE 0 END AS leak,
  tier_of(index, leak, k.tier_first_look, k.tier_next_look, k.tier_keep_watch) AS tier,
  tier_of(index_low, leak, k.tier_first_look, k.tier_next_look, k.tier_keep_watch) AS tier_low,
  tier_of(index_high, leak, k.tier_first_look, k.tier_next_look, k.tier_keep_watch) AS tier_high
FROM shown, k;
