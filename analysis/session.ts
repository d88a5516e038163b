import { type Columns, cell, numbers, rowObject, texts } from './columns.ts';
import type { Engine } from './engine/port.ts';
import { about } from './export/about.ts';
import { rankingText } from './export/write.ts';
import { type Assets, type Portfolio, readInputs } from './inputs.ts';
import { ledgerOf } from './ledger/ledger.ts';
import { loadReference, score } from './pipeline.ts';
import { type RainAtBuildings, rainAtBuildings } from './rain/at-buildings.ts';
import { orderStatement } from './rank/order.ts';
import { outputRow } from './rank/output.ts';
import {
  type Analyst,
  type BuildingDetail,
  type Counted,
  type Frame,
  type Inputs,
  type Tier,
  tiers,
} from './session-types.ts';
import { defaultSettings, type Settings } from './settings.ts';

/** A portfolio that has been read and scored. */
interface Scored {
  readonly portfolio: Portfolio;
  readonly rain: RainAtBuildings;
}

/** The analysis over one engine: what the page's worker and the command line both drive. */
export async function createSession(
  engine: Engine,
  assets: Assets,
  settings: Settings = defaultSettings,
): Promise<Analyst> {
  await loadReference(engine);
  let current: Scored | undefined;
  const opened = (): Scored => {
    if (!current) throw new Error('no portfolio is open');
    return current;
  };
  return {
    open: async (inputs: Inputs) => {
      const portfolio = await readInputs(inputs, assets, settings.as_of!);
      current = await scored(engine, portfolio, settings);
      return portfolio.report;
    },
    frame: () => frame(engine),
    order: async (query) => {
      const { text, params } = orderStatement(query);
      return Int32Array.from(numbers(await engine.query(text, params), 'b'));
    },
    rows: (ordinals) => rows(engine, ordinals),
    building: (b) => building(engine, opened().portfolio, b),
    ledger: (b, column, wall) => ledgerOf({ engine, settings, ...opened() }, { b, column, wall }),
    write: (format, units) => write(engine, opened().portfolio, settings, format, units),
    rainSheet: async () => opened().portfolio.grid,
  };
}

async function scored(engine: Engine, portfolio: Portfolio, settings: Settings): Promise<Scored> {
  const { buildings, walls, grid } = portfolio;
  const rain = rainAtBuildings(buildings, grid, settings);
  await engine.load('building', { n: buildings.n, cols: { ...buildings.cols, ...rain.columns } });
  await engine.load('wall_record', walls);
  await score(engine, settings);
  return { portfolio, rain };
}

async function frame(engine: Engine): Promise<Frame> {
  const table = await engine.query(
    'SELECT longitude, latitude, tier, index FROM ranking ORDER BY b',
  );
  const tier = Uint8Array.from(numbers(table, 'tier'));
  const most = await engine.query('SELECT max(wetting_l_m2) AS most FROM ranking');
  return {
    n: table.n,
    longitude: numbers(table, 'longitude'),
    latitude: numbers(table, 'latitude'),
    tier,
    index: numbers(table, 'index'),
    counts: {
      tier: Object.fromEntries(
        tiers.map((name, i) => [name, tier.reduce((n, t) => n + Number(t === i), 0)]),
      ) as Record<Tier, number>,
      region: await counted(engine, 'region'),
      material: await counted(engine, 'material'),
    },
    wettingMax: Number(cell(most, 'most', 0) ?? 0),
  };
}

async function counted(engine: Engine, column: 'region' | 'material'): Promise<Counted[]> {
  const table = await engine.query(
    `SELECT ${column} AS value, count(*) AS n FROM ranking GROUP BY ALL ORDER BY n DESC, value NULLS LAST`,
  );
  return texts(table, 'value').map((value, i) => ({ value, n: numbers(table, 'n')[i]! }));
}

/** Rows by ordinal, in the order asked for. */
async function rows(engine: Engine, ordinals: Int32Array) {
  const marks = Array.from(ordinals, () => '?').join(', ');
  if (!marks) return [];
  const table = await engine.query(`SELECT * FROM ranking WHERE b IN (${marks})`, [...ordinals]);
  const at = new Map(Array.from(numbers(table, 'b'), (b, i) => [b, i]));
  return Array.from(ordinals, (b) => shown(rowObject(table, at.get(b)!)));
}

/** Output columns in metric, with what else the page draws; `reason_american` is the same sentence in inches. */
function shown(row: Record<string, number | string | null>) {
  const { b, city, region, adequacy, susceptibility, sheathing, gap_asked_mm } = row;
  return {
    b: b ?? null,
    city: city ?? null,
    region: region ?? null,
    ...outputRow(row, 'metric'),
    reason_american: outputRow(row, 'american').reason ?? null,
    adequacy: adequacy ?? null,
    susceptibility: susceptibility ?? null,
    sheathing: sheathing ?? null,
    gap_asked_mm: gap_asked_mm ?? null,
  };
}

const wallsText = `
  SELECT w.wall, w.wall_id, w.kind, w.azimuth_deg, w.material, w.area_used_m2 AS area_m2, w.installed_used AS installed,
    w.installed_from, w.drainage_used AS drainage, w.gap_used_mm AS gap_mm, w.sheathing, w.runoff,
    round(x.wetting_l_m2, 2) AS wetting_l_m2, x.w_mean AS w, x.d_mean AS d, x.s_mean AS s,
    t.drainage_state, n.need_code_then, n.need_code_now, n.need_practice, n.gap_asked_mm,
    round(x.index, 2) AS index, round(x.index_low, 2) AS index_low, round(x.index_high, 2) AS index_high, w."row"
  FROM wall w
  JOIN wall_index x USING (wall)
  JOIN need n USING (wall)
  JOIN drainage_state t USING (wall)
  WHERE w.b = ?
  ORDER BY x.index DESC NULLS LAST, x.index_high DESC NULLS LAST, x.wetting_l_m2 DESC, w.wall_id, w.wall`;

const supersededText = `
  SELECT NULL AS wall, wall_id, 'superseded' AS kind, azimuth_deg, material, area_m2, installed, drainage, gap_mm,
    sheathing, runoff, source, recorded_on, "row"
  FROM standing WHERE b = ? AND NOT stands ORDER BY wall_id, "row"`;

async function building(engine: Engine, portfolio: Portfolio, b: number): Promise<BuildingDetail> {
  const [row] = await rows(engine, Int32Array.of(b));
  const walls = await engine.query(wallsText, [b]);
  const superseded = await engine.query(supersededText, [b]);
  return {
    b,
    row: row!,
    record: { ...rowObject(portfolio.buildings, b), ...rowObject(portfolio.extra, b) },
    walls: [...objects(walls), ...objects(superseded)],
  };
}

const objects = (table: Columns) => Array.from({ length: table.n }, (_, i) => rowObject(table, i));

async function write(
  engine: Engine,
  portfolio: Portfolio,
  settings: Settings,
  format: Parameters<Analyst['write']>[0],
  units: Parameters<Analyst['write']>[1],
) {
  const ranking = await engine.query('SELECT * FROM ranking ORDER BY rank NULLS LAST, building_id');
  const { grid, digests, report, extra } = portfolio;
  return {
    text: rankingText(ranking, extra, format, units),
    about: about({ settings, digests, report, rainSource: grid.source, rainPeriod: grid.period }),
  };
}
