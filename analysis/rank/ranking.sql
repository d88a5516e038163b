-- ranking: one row a building, before it is put into words (output.ts). A building that is not scored has no rank. A view: a
-- second copy of the record in a million rows is more than the memory of a browser gives.
CREATE OR REPLACE VIEW ranking AS
SELECT
  r.rank,
  s.building_id, s.name, s.address, s.city, s.region, s.latitude, s.longitude, s.place_source,
  round(s.rain_mm, 1) AS rain_mm, round(s.rain_ln_sd, 4) AS rain_ln_sd, round(s.rain_low_mm, 1) AS rain_low_mm,
  round(s.rain_high_mm, 1) AS rain_high_mm,
  -- Never printed as certain: 0.01 stands for that or less, 0.99 for that or more.
  least(greatest(round(s.p_rain_over_threshold, 2), 0.01), 0.99) AS p_rain_over_threshold,
  CASE WHEN s.rain_mm IS NOT NULL THEN said.source END AS rain_source,
  CASE WHEN s.rain_mm IS NOT NULL THEN said.period END AS rain_period,
  s.rain_flag,
  w.wall_id, w.kind, w.material, w.drainage_used, w.sheathing, w.solid,
  w.installed_used, w.gap_used_mm, w.runoff, w.azimuth_deg,
  s.terrain, s.height_class, s.height_used_m, s.roof, s.use, s.leak_history, s.insured_value, s.currency,
  t.*,
  -- How much of the variance of the index knowing each fact would take away, 0-1.
  v.* EXCLUDE (b)
FROM tiered t
JOIN site s USING (b)
LEFT JOIN rank_of r USING (b)
LEFT JOIN wall w ON w.wall = t.wall
LEFT JOIN fact_share v ON v.b = t.b
CROSS JOIN rain_said said;
