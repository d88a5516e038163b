-- load_draw: every value that the unrecorded facts of a load_case may take, with its weight (whole numbers).
--   l_m2_per_mm   L/m² yr of wetting per mm/yr of rain: 0.2 · F_E · F_D · κ · U  (after ASHRAE Standard 160)
CREATE OR REPLACE TABLE load_draw AS
SELECT
  draw.*,
  round(rain_wetting_coefficient * f_e * f_d * kappa * wind_m_s, 9) AS l_m2_per_mm
FROM (
  SELECT
    c.load_case, t.terrain, h.height_class, r.roof, o.runoff, f.azimuth_deg, f.kappa,
    CASE t.terrain WHEN 'severe' THEN e.severe WHEN 'medium' THEN e.medium ELSE e.sheltered END AS f_e,
    d.factor AS f_d,
    u.wind_m_s,
    t.weight * h.weight * r.weight * o.weight * f.weight * u.weight AS weight
  FROM load_case c
  JOIN (
    SELECT terrain AS known, terrain, 1 AS weight FROM prior_terrain
    UNION ALL SELECT NULL, terrain, weight FROM prior_terrain
  ) t ON c.terrain IS NOT DISTINCT FROM t.known
  JOIN (
    SELECT height_class AS known, g.use_group, height_class, 1 AS weight
    FROM exposure_factor, (SELECT DISTINCT use_group FROM prior_height) g
    UNION ALL SELECT NULL, use_group, height_class, weight FROM prior_height
  ) h ON c.height_class IS NOT DISTINCT FROM h.known AND c.use_group = h.use_group
  JOIN (
    SELECT roof AS known, use_group, roof, 1 AS weight FROM prior_roof
    UNION ALL SELECT NULL, use_group, roof, weight FROM prior_roof
  ) r ON c.roof IS NOT DISTINCT FROM r.known AND c.use_group = r.use_group
  JOIN (
    SELECT runoff AS known, runoff, 1 AS weight FROM prior_runoff
    UNION ALL SELECT NULL, runoff, weight FROM prior_runoff
  ) o ON c.runoff IS NOT DISTINCT FROM o.known
  JOIN exposure_factor e ON e.height_class = h.height_class
  JOIN deposition_factor d ON d.roof = r.roof AND d.runoff = o.runoff
  JOIN facing f ON c.azimuth IS NOT DISTINCT FROM f.known
  CROSS JOIN wind u
) draw, k;
