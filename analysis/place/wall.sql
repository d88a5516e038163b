-- wall: one row a wall, as it reads. A view over wall_row.
CREATE OR REPLACE VIEW wall AS
SELECT
  wall, b,
  CASE kind
    WHEN 'recorded' THEN wall_id
    WHEN 'remainder' THEN 'rest of the walls'
    ELSE 'wall facing ' || CASE azimuth_deg WHEN 0 THEN 'N' WHEN 90 THEN 'E' WHEN 180 THEN 'S' ELSE 'W' END
  END AS wall_id,
  CAST(kind AS VARCHAR) AS kind, "file", "row", azimuth_deg, CAST(material AS VARCHAR) AS material,
  CAST(sheathing AS VARCHAR) AS sheathing, CAST(runoff AS VARCHAR) AS runoff, area_m2, area_used_m2, installed_used,
  CAST(installed_from AS VARCHAR) AS installed_from, before_reclad, CAST(drainage AS VARCHAR) AS drainage, gap_mm,
  drainage_eff_pct, CAST(material_group AS VARCHAR) AS material_group, scored, cavityless,
  CAST(drainage_used AS VARCHAR) AS drainage_used, gap_used_mm, wood_based, solid
FROM wall_row;
