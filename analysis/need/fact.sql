-- need_fact: one row a wall. What the rules ask about, in three values: true, false, NULL (cannot tell).
-- SQL's own AND, OR and NOT over NULL are Kleene's, which is the logic of the method.
CREATE OR REPLACE TABLE need_fact AS
WITH zone AS (
  SELECT
    b,
    TRY_CAST(nullif(regexp_extract(upper(climate_zone), '([0-8])', 1), '') AS INTEGER) AS digit,
    nullif(regexp_extract(upper(climate_zone), '[0-8] *([ABC])', 1), '') AS letter,
    rain_low_mm / 25.4 AS low_in,
    rain_high_mm / 25.4 AS high_in,
    k.dry_slope_in_f * (mean_temp_c * 9 / 5 + 32 - k.dry_offset_f) AS limit_in,
    CASE marine_possible WHEN 'no' THEN true END AS not_marine,
    site.* EXCLUDE (b)
  FROM site, k
),
regime AS (
  SELECT
    zone.*,
    CASE
      WHEN letter IS NOT NULL THEN letter = 'B'
      WHEN climate_zone IS NOT NULL THEN NULL
      WHEN mean_temp_c IS NOT NULL THEN
        not_marine AND CASE WHEN high_in < limit_in THEN true WHEN low_in >= limit_in THEN false END
      WHEN low_in >= k.not_dry_rain_in THEN false
      WHEN high_in < k.dry_rain_in AND latitude < k.dry_rain_north_deg THEN not_marine
    END AS dry,
    CASE WHEN digit >= 4 THEN false ELSE letter = 'A' END AS zone_1a_2a_3a,
    moisture_index > 1.0 OR (moisture_index > 0.9 AND hdd18_c < 3400) AS nbc_moisture,
    construction_type = 'V' AND use IN ('house', 'townhouse', 'apartment', 'hotel') AS type_v_residential,
    CASE WHEN use IN ('house', 'townhouse') AND storeys <= 3 THEN true END AS part_9,
    CASE
      WHEN p_rain_over_threshold >= k.practice_sure THEN true
      WHEN p_rain_over_threshold <= k.practice_sure_not THEN false
    END AS rainy
  FROM zone, k
)
SELECT
  w.wall,
  w.installed_used,
  r.country,
  f.region AS set_region,
  r.code_irc,
  w.material_group = 'plaster' AS plaster,
  w.material_group IN ('plaster', 'adhered') AS plaster_or_adhered,
  w.material_group = 'eifs' AS eifs,
  w.cavityless,
  w.wood_based,
  NOT w.solid AS not_solid,
  r.dry, NOT r.dry AS moist_or_marine, r.zone_1a_2a_3a, r.nbc_moisture, r.rainy,
  r.type_v_residential, r.part_9,
  -- The name of the fact behind an unknown answer, where it is not always the same one.
  CASE WHEN r.use = 'townhouse' THEN 'storeys' ELSE 'use' END AS fact_code,
  CASE WHEN r.moisture_index IS NULL THEN 'moisture_index' ELSE 'hdd18_c' END AS fact_nbc_moisture,
  CASE WHEN r.use IS NULL THEN 'use' ELSE 'construction_type' END AS fact_type_v,
  CASE
    WHEN r.storeys > 3 THEN 'Part 5 applies'
    WHEN r.use IS NULL THEN 'use'
    WHEN r.use NOT IN ('house', 'townhouse', 'apartment', 'hotel') THEN 'Part 5 applies'
    WHEN r.storeys IS NULL THEN 'storeys'
    ELSE 'building area, Part 9 or Part 5'
  END AS fact_part_9
FROM wall w
JOIN regime r USING (b)
LEFT JOIN (SELECT DISTINCT region FROM edition_in_force) f ON f.region = r.region_code;
