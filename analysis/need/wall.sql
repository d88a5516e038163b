-- need_wall: one row a wall, the need_case it belongs to.
CREATE OR REPLACE TABLE need_wall AS
SELECT f.wall, f.installed_used, c.need_case
FROM need_fact f
JOIN need_case c ON
  c.country IS NOT DISTINCT FROM f.country AND c.set_region IS NOT DISTINCT FROM f.set_region
  AND c.code_irc IS NOT DISTINCT FROM f.code_irc
  AND c.plaster IS NOT DISTINCT FROM f.plaster
  AND c.plaster_or_adhered IS NOT DISTINCT FROM f.plaster_or_adhered AND c.eifs IS NOT DISTINCT FROM f.eifs
  AND c.cavityless IS NOT DISTINCT FROM f.cavityless AND c.wood_based IS NOT DISTINCT FROM f.wood_based
  AND c.not_solid IS NOT DISTINCT FROM f.not_solid AND c.dry IS NOT DISTINCT FROM f.dry
  AND c.zone_1a_2a_3a IS NOT DISTINCT FROM f.zone_1a_2a_3a
  AND c.nbc_moisture IS NOT DISTINCT FROM f.nbc_moisture AND c.rainy IS NOT DISTINCT FROM f.rainy
  AND c.type_v_residential IS NOT DISTINCT FROM f.type_v_residential
  AND c.part_9 IS NOT DISTINCT FROM f.part_9 AND c.fact_code = f.fact_code
  AND c.fact_nbc_moisture = f.fact_nbc_moisture AND c.fact_type_v = f.fact_type_v
  AND c.fact_part_9 = f.fact_part_9;
