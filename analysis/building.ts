import { type Columns, cell, rowObject } from './columns.ts';
import type { Engine } from './engine/port.ts';
import type { Portfolio } from './inputs.ts';
import type { Row } from './rank/rows.ts';
import { referenceRows } from './reference.ts';
import type { BuildingDetail, EditionAnswer } from './session-types.ts';
import { drivingRainClass } from './weather/tables.ts';

const objects = (table: Columns): Row[] =>
  Array.from({ length: table.n }, (_, i) => rowObject(table, i));

const wallsText = `
  SELECT w.wall, w.wall_id, w.kind, w.azimuth_deg, w.material, w.area_used_m2 AS area_m2, w.installed_used AS installed,
    w.installed_from, w.drainage_used AS drainage, w.gap_used_mm AS gap_mm, w.sheathing, w.runoff,
    round(x.wetting_l_m2, 2) AS wetting_l_m2, x.w_mean AS w, x.d_mean AS d, x.s_mean AS s,
    t.drainage_state, n.need_code_then, n.need_code_now, n.need_practice, n.gap_asked_mm,
    round(x.index, 2) AS index, round(x.index_low, 2) AS index_low, round(x.index_high, 2) AS index_high, w."file", w."row"
  FROM wall w
  JOIN wall_index x USING (wall)
  JOIN need n USING (wall)
  JOIN drainage_state t USING (wall)
  WHERE w.b = ?
  ORDER BY x.index DESC NULLS LAST, x.index_high DESC NULLS LAST, x.wetting_l_m2 DESC, w.wall_id, w.wall`;

const supersededText = `
  SELECT NULL AS wall, wall_id, 'superseded' AS kind, azimuth_deg, material, area_m2, installed, drainage, gap_mm,
    sheathing, runoff, source, recorded_on, "file", "row"
  FROM standing WHERE b = ? AND NOT stands ORDER BY wall_id, "file", "row"`;

const timelineText = `
  SELECT a.code, a.edition, a.answer, a.rule_id, a.missing,
    bool_or(p.edition IS NOT NULL AND NOT p.now) AS stood_then, bool_or(coalesce(p.now, false)) AS stands_now
  FROM need_wall w
  JOIN edition_answer a USING (need_case)
  LEFT JOIN edition_possible p
    ON p.set_region IS NOT DISTINCT FROM a.set_region AND p.code = a.code AND p.edition = a.edition
    AND (p.now OR p.year = w.installed_used)
  WHERE w.wall = ?
  GROUP BY a.code, a.edition, a.answer, a.rule_id, a.missing`;

/** One building opened: its ranking row as given, its record, its walls, and what was asked of it over the years. */
export async function buildingDetail(
  engine: Engine,
  portfolio: Portfolio,
  row: Row,
): Promise<BuildingDetail> {
  const b = Number(row.b);
  const walls = await engine.query(wallsText, [b]);
  const superseded = await engine.query(supersededText, [b]);
  const timeline = objects(await engine.query(timelineText, [row.wall!])).map(editionAnswer);
  return {
    b,
    row,
    record: { ...rowObject(portfolio.buildings, b), ...rowObject(portfolio.extra, b) },
    walls: [...objects(walls), ...objects(superseded)].map((wall) => inFile(wall, portfolio)),
    drivingRain: drivingRain(portfolio, b, row),
    timeline: timeline.sort((x, y) => x.to - y.to || x.code.localeCompare(y.code)),
  };
}

/** The file of a wall by its name, and the user's own columns of its record as one text. */
const inFile = (wall: Row, portfolio: Portfolio): Row => ({
  ...wall,
  file: wall.file === null ? null : (portfolio.wallFiles[Number(wall.file)] ?? null),
  own: ownColumns(wall, portfolio),
});

function ownColumns({ file, row }: Row, { wallExtras }: Portfolio): string | null {
  const from = file === null ? undefined : wallExtras[Number(file)];
  const at = from ? from.row.indexOf(Number(row)) : -1;
  if (!from || at < 0) return null;
  const cells = Object.entries(rowObject(from.extra, at)).filter(([, value]) => value !== null);
  return cells.length > 0 ? cells.map(([name, value]) => `${name}: ${value}`).join('; ') : null;
}

/** Rain × all-hours mean wind, m²/s to 0.01, and its class, where a wind grid was given. */
function drivingRain({ buildings }: Portfolio, b: number, row: Row): BuildingDetail['drivingRain'] {
  const windMs = cell(buildings, 'mean_wind_ms', b);
  if (typeof windMs !== 'number' || typeof row.rain_mm !== 'number') return null;
  const m2PerS = Math.round((row.rain_mm / 1000) * windMs * 100) / 100;
  return { windMs, m2PerS, class: drivingRainClass(m2PerS) };
}

function editionAnswer(row: Row): EditionAnswer {
  const edition = referenceRows('editions').find(
    ({ code, edition }) => code === row.code && edition === row.edition,
  )!;
  const rule = referenceRows('rules').find(({ rule_id }) => rule_id === row.rule_id);
  const answers = ['does not ask', `cannot tell: ${row.missing}`, `asks: ${row.rule_id}`];
  return {
    code: `${row.code}`,
    label: edition.label!,
    from: Number(edition.year_from),
    to: Number(edition.year_to),
    answer: answers[Number(row.answer)]!,
    asks: rule?.asks ?? null,
    stoodThen: Number(row.stood_then) === 1,
    standsNow: Number(row.stands_now) === 1,
  };
}
