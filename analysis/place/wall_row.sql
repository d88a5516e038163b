-- wall_row: one row a wall that is scored or listed, its words as places in a list (word.sql) and the identifiers that are
-- made up left out: read it by the view wall.
--   kind       recorded; remainder (area of the building that no record covers); assumed (no record at all)
--   wall       ordinal, in order of building, wall_id and kind
--   installed_used   year on record, else the reclad year, else the building's year; NULL: over its prior
--   installed_from   which of the three
--   area_used_m2     area on record, else the mean of the building's recorded walls, else an equal share
-- A reclad resets year and drainage: a drainage record older than the reclad is dropped.
CREATE OR REPLACE TABLE wall_row AS
WITH area AS (
  SELECT
    b,
    count(*) AS walls,
    sum(CAST(round(area_m2 * 1e3) AS BIGINT)) / 1e3 / nullif(count(area_m2), 0) AS mean_area_m2
  FROM standing
  WHERE stands
  GROUP BY b
),
recorded AS (
  SELECT
    CAST(s.b AS INTEGER) AS b, s.wall_id, 'recorded' AS kind, CAST(s."file" AS INTEGER) AS "file",
    CAST(s."row" AS INTEGER) AS "row", s.azimuth_deg, s.material, s.sheathing, s.runoff, s.installed,
    s.area_m2,
    coalesce(s.area_m2, round(a.mean_area_m2, 3), round(t.wall_area_m2 / a.walls, 3)) AS area_used_m2,
    CAST(coalesce(s.installed, t.reclad_year, t.year_built) AS INTEGER) AS installed_used,
    CASE
      WHEN s.installed IS NOT NULL THEN 'wall'
      WHEN t.reclad_year IS NOT NULL THEN 'reclad'
      WHEN t.year_built IS NOT NULL THEN 'building'
    END AS installed_from,
    coalesce(TRY_CAST(left(s.recorded_on, 4) AS INTEGER) < t.reclad_year AND s.installed IS NULL, false) AS before_reclad,
    s.drainage, s.gap_mm, s.drainage_eff_pct
  FROM standing s
  JOIN site t USING (b)
  JOIN area a USING (b)
  WHERE s.stands
),
covered AS (
  SELECT b, sum(CAST(round(area_used_m2 * 1e3) AS BIGINT)) / 1e3 AS area_m2
  FROM recorded
  GROUP BY b
),
unseen AS (
  SELECT t.b, 'rest of the walls' AS wall_id, 'remainder' AS kind, NULL AS azimuth_deg,
    t.wall_area_m2 - c.area_m2 AS area_used_m2
  FROM site t
  JOIN covered c USING (b), k
  WHERE t.wall_area_m2 > c.area_m2 * (1 + k.remainder_share)
  UNION ALL
  SELECT t.b, 'wall facing ' || side.name, 'assumed', side.azimuth_deg, t.wall_area_m2 / 4
  FROM site t
  ANTI JOIN area USING (b)
  CROSS JOIN (VALUES ('N', 0), ('E', 90), ('S', 180), ('W', 270)) side (name, azimuth_deg)
),
both_kinds AS (
  SELECT
    b, wall_id, CAST(kind AS word) AS kind, "file", "row", azimuth_deg, CAST(material AS word) AS material,
    CAST(sheathing AS word) AS sheathing, CAST(runoff AS word) AS runoff, area_m2, area_used_m2,
    installed_used, CAST(installed_from AS word) AS installed_from, before_reclad,
    CAST(CASE WHEN NOT before_reclad THEN drainage END AS word) AS drainage,
    CASE WHEN NOT before_reclad THEN gap_mm END AS gap_mm,
    CASE WHEN NOT before_reclad THEN drainage_eff_pct END AS drainage_eff_pct
  FROM recorded
  UNION ALL
  SELECT
    CAST(u.b AS INTEGER), u.wall_id, CAST(u.kind AS word), NULL, NULL, u.azimuth_deg, NULL, NULL, NULL, NULL,
    round(u.area_used_m2, 3),
    CAST(coalesce(t.reclad_year, t.year_built) AS INTEGER),
    CAST(CASE WHEN t.reclad_year IS NOT NULL THEN 'reclad' WHEN t.year_built IS NOT NULL THEN 'building' END AS word),
    false, NULL, NULL, NULL
  FROM unseen u
  JOIN site t USING (b)
),
-- The words of the list are in alphabetical order, so kind sorts as it reads.
numbered AS (
  SELECT CAST(row_number() OVER (ORDER BY b, wall_id, kind) - 1 AS INTEGER) AS wall, *
  FROM both_kinds
)
SELECT
  w.wall, w.b,
  CASE WHEN w.kind = 'recorded' THEN w.wall_id END AS wall_id,
  w.* EXCLUDE (wall, b, wall_id),
  CAST(m."group" AS word) AS material_group,
  coalesce(m.scored = 'yes', true) AS scored,
  m.cavityless = 'yes' AS cavityless,
  coalesce(w.drainage, CAST(m.intrinsic_type AS word)) AS drainage_used,
  coalesce(w.gap_mm, CASE WHEN w.drainage IS NULL THEN m.intrinsic_gap_mm END) AS gap_used_mm,
  h.wood_based = 'yes' AS wood_based,
  h.solid = 'yes' AS solid
FROM numbered w
LEFT JOIN materials m ON CAST(m.material AS word) = w.material
LEFT JOIN sheathing h ON CAST(h.sheathing AS word) = w.sheathing;
