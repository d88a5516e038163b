-- ranked: one row a building, in the units of the method, before it is put into words (output.ts).
-- Numbers are rounded as they are exported, and rank and ties use what is exported. A reported leak outranks any
-- index; a building that is not scored has no rank and stands last.
CREATE OR REPLACE TABLE ranked AS
WITH chosen AS (
  SELECT b, coalesce(i.wall, first_wall.wall) AS wall
  FROM site
  LEFT JOIN building_index i USING (b)
  LEFT JOIN (SELECT b, min(wall) AS wall FROM wall GROUP BY b) first_wall USING (b)
),
shown AS (
  SELECT
    s.b, s.building_id, s.name, s.address, s.city, s.region, s.latitude, s.longitude, s.place_source,
    round(s.rain_mm, 1) AS rain_mm, round(s.rain_ln_sd, 4) AS rain_ln_sd, round(s.rain_low_mm, 1) AS rain_low_mm, round(s.rain_high_mm, 1) AS rain_high_mm,
    -- Never printed as certain: 0.01 stands for that or less, 0.99 for that or more.
    least(greatest(round(s.p_rain_over_threshold, 2), 0.01), 0.99) AS p_rain_over_threshold,
    s.rain_flag,
    w.wall, w.wall_id, w.kind, w.material, w.drainage_used, w.sheathing, w.solid,
    w.installed_used, w.gap_used_mm, w.runoff, w.azimuth_deg,
    s.terrain, s.height_class, s.height_used_m, s.roof, s.use, s.leak_history, s.insured_value, s.currency,
    round(x.wetting_l_m2, 2) AS wetting_l_m2,
    d.drainage_state,
    n.need_code_then, n.need_code_now, n.need_practice, n.gap_asked_mm, n.code_gap_mm, n.code_layers,
    round(i.index, 2) AS index, round(i.index_low, 2) AS index_low, round(i.index_high, 2) AS index_high,
    round(i.index_spread, 2) AS index_spread, i.index_weighted_area_m2,
    round(i.adequacy_mean, 4) AS adequacy, round(i.s_mean, 4) AS susceptibility,
    coalesce(s.leak_history = 'reported', false) AS leak,
    -- How much of the variance of the index knowing each fact would take away, 0-1.
    v.* EXCLUDE (wall, index_low, index_high)
  FROM site s
  JOIN chosen c USING (b)
  LEFT JOIN building_index i ON i.b = s.b
  LEFT JOIN wall w ON w.wall = c.wall
  LEFT JOIN wall_index x ON x.wall = c.wall
  LEFT JOIN wall_interval v ON v.wall = c.wall
  LEFT JOIN need n ON n.wall = c.wall
  LEFT JOIN drainage_state d ON d.wall = c.wall
),
tiered AS (
  SELECT
    shown.* EXCLUDE (leak),
    CASE WHEN leak THEN 1 ELSE 0 END AS leak,
    tier_of(index, leak, k.tier_first_look, k.tier_next_look, k.tier_keep_watch) AS tier,
    tier_of(index_low, leak, k.tier_first_look, k.tier_next_look, k.tier_keep_watch) AS tier_low,
    tier_of(index_high, leak, k.tier_first_look, k.tier_next_look, k.tier_keep_watch) AS tier_high
  FROM shown, k
)
SELECT
  CASE WHEN tier < 4 THEN
    row_number() OVER (
      ORDER BY
        tier = 4, leak DESC, index DESC NULLS LAST, index_high DESC NULLS LAST,
        index_weighted_area_m2 DESC NULLS LAST, building_id
    )
  END AS rank,
  tiered.*
FROM tiered;
