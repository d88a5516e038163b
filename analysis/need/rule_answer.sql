-- rule_answer: one row a need_case and rule.
--   asks      true, false or NULL, by Kleene's AND of what the rule covers, its substrate, climate and scope
--   missing   where NULL: the first fact that would decide it
CREATE OR REPLACE TABLE rule_answer AS
WITH part AS (
  SELECT
    c.need_case, r.*, c.fact_nbc_moisture, c.fact_type_v, c.fact_part_9,
    CASE r.covers
      WHEN 'plaster' THEN c.plaster
      WHEN 'plaster_or_adhered' THEN c.plaster_or_adhered
      WHEN 'eifs' THEN c.eifs
      WHEN 'cavityless' THEN c.cavityless
      WHEN 'any' THEN true
    END AS covered,
    CASE r.substrate WHEN 'wood_based' THEN c.wood_based WHEN 'not_solid' THEN c.not_solid WHEN 'any' THEN true END
      AS on_substrate,
    CASE r.climate
      WHEN 'dry' THEN c.dry
      WHEN 'moist_or_marine' THEN c.moist_or_marine
      WHEN 'zone_1a_2a_3a' THEN c.zone_1a_2a_3a
      WHEN 'nbc_moisture' THEN c.nbc_moisture
      WHEN 'rainy' THEN c.rainy
      WHEN 'any' THEN true
    END AS in_climate,
    CASE r.scope
      WHEN 'type_v_residential' THEN c.type_v_residential
      WHEN 'part_9' THEN c.part_9
      WHEN 'any' THEN true
    END AS in_scope
  FROM need_case c
  CROSS JOIN rules r
)
SELECT
  need_case, rule_id, code, edition_from, edition_to, asks_layers, asks_gap_mm, asks_efficiency_pct,
  covered, on_substrate, in_climate, in_scope,
  CASE scope WHEN 'part_9' THEN fact_part_9 ELSE fact_type_v END AS fact_scope,
  CASE climate WHEN 'nbc_moisture' THEN fact_nbc_moisture WHEN 'rainy' THEN 'rain' ELSE 'climate_zone' END AS fact_climate,
  covered AND on_substrate AND in_climate AND in_scope AS asks,
  CASE
    WHEN covered IS NULL THEN 'material'
    WHEN on_substrate IS NULL THEN 'sheathing'
    WHEN in_scope IS NULL THEN fact_scope
    WHEN in_climate IS NULL THEN fact_climate
  END AS missing
FROM part;
