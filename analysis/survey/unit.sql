-- One row a wall that can be looked at, with what a sample of walls or of buildings needs to know of it.
--   tier        of the wall's own index; a reported leak is a matter of the building
--   area_m2     on record; blank where it is only assumed
--   sets_index  the wall that gives its building its place
SELECT
  w.wall, w.b, s.building_id, s.name, s.address, s.city, s.region, s.latitude, s.longitude, w.wall_id, w.kind,
  w.azimuth_deg, w.material, w.installed_used AS installed, w.drainage_used AS drainage, w.sheathing, w.area_m2,
  s.height_used_m AS height_m, round(x.wetting_l_m2, 2) AS wetting_l_m2, x.w_mean AS w, x.d_mean AS d, x.s_mean AS s,
  round(x.index, 2) AS index, round(x.index_low, 2) AS index_low, round(x.index_high, 2) AS index_high,
  tier_of(round(x.index, 2), false, k.tier_first_look, k.tier_next_look, k.tier_keep_watch) AS tier,
  tier_of(r.index, r.leak = 1, k.tier_first_look, k.tier_next_look, k.tier_keep_watch) AS building_tier,
  coalesce(r.wall = w.wall, false) AS sets_index
FROM wall w
JOIN wall_index x USING (wall)
JOIN site s ON s.b = w.b
JOIN ranking r ON r.b = w.b, k
WHERE x.index IS NOT NULL
ORDER BY s.building_id, w.wall_id, w.wall
