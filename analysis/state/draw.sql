-- assembly_draw: every value that the unrecorded facts of an assembly_case may take, with its weight.
--   adequacy   0-1, how much of the gap asked for is there
--   d          drainage deficiency: max(floor, 1 − adequacy); plaster directly on concrete or masonry has its own
--   s          susceptibility of the sheathing × age factor
--   ds         d^β · s^γ
CREATE OR REPLACE TABLE assembly_draw AS
WITH material AS (
  SELECT c.*, coalesce(c.material, p.material) AS material_drawn, coalesce(p.weight, 1) AS weight_material
  FROM assembly_case c
  LEFT JOIN prior_material p ON c.material IS NULL
),
era AS (
  SELECT m.*, e.era, coalesce(m.installed_used, p.installed) AS installed_drawn, coalesce(p.weight, 1) AS weight_year
  FROM material m
  LEFT JOIN prior_installed p ON m.installed_used IS NULL
  JOIN prior_era e ON coalesce(m.installed_used, p.installed) BETWEEN e.from_year AND e.to_year
),
backing AS (
  SELECT era.*, coalesce(era.sheathing, p.sheathing) AS sheathing_drawn, coalesce(p.weight, 1) AS weight_sheathing
  FROM era
  LEFT JOIN prior_sheathing p ON era.sheathing IS NULL AND p.material = era.material_drawn AND p.era = era.era
),
layer AS (
  SELECT
    backing.*,
    coalesce(drainage_used, p.drainage) AS drainage_drawn,
    coalesce(p.weight, 1) AS weight_drainage
  FROM backing
  LEFT JOIN prior_drainage p
    ON drainage_used IS NULL AND gap_used_mm IS NULL AND p.material = material_drawn AND p.era = backing.era
),
gap AS (
  SELECT
    layer.*,
    coalesce(p.weight, 1) AS weight_gap,
    greatest(
      CASE
        WHEN gap_used_mm IS NULL THEN p.adequacy
        ELSE greatest(CASE WHEN t.sheets < 2 THEN 0 ELSE k.adequacy_floor END, least(1, gap_used_mm / gap_asked_mm))
      END,
      CASE WHEN drainage_eff_pct >= k.stated_efficiency_pct THEN k.stated_efficiency_adequacy ELSE 0 END
    ) AS adequacy,
    t.sheets
  FROM layer
  LEFT JOIN drainage t ON t.drainage = drainage_drawn
  LEFT JOIN prior_adequacy p ON gap_used_mm IS NULL AND p.drainage = drainage_drawn, k
),
factor AS (
  SELECT
    assembly_case, material_drawn, installed_drawn, sheathing_drawn, drainage_drawn, adequacy,
    weight_material * weight_year * weight_sheathing * weight_drainage * weight_gap AS weight,
    round(
      least(
        greatest(k.deficiency_floor, 1 - adequacy),
        CASE WHEN h.solid = 'yes' AND m."group" IN ('plaster', 'adhered') THEN k.solid_backing_deficiency ELSE 1 END
      ), 6) AS d,
    round(
      h.susceptibility * CASE WHEN k.age_counts = 1 THEN
        1 - k.age_share
          + k.age_share * (1 - exp(-least(greatest(k.as_of - installed_drawn, 0), k.age_cap_yr) / k.age_constant_yr))
        ELSE 1 END, 6) AS s
  FROM gap
  JOIN sheathing h ON h.sheathing = sheathing_drawn
  JOIN materials m ON m.material = material_drawn, k
)
SELECT factor.*, round(pow(d, k.weight_deficiency) * pow(s, k.weight_susceptibility), 6) AS ds
FROM factor, k;
