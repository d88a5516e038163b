import { identifier, type KeepingEngine } from '../engine/port.ts';
import { score, steps } from '../pipeline.ts';
import { rainAtBuildings } from '../rain/at-buildings.ts';
import type { MadeRain } from '../rain/making.ts';
import { buildingColumns, wallColumns } from '../read/schema.ts';
import { sameWalls } from '../read/wall-files.ts';
import type { Watching } from '../session-types.ts';
import type { Settings } from '../settings.ts';
import type { SideFiles } from '../side-files.ts';
import { noRecord, ofRecord } from '../wetting/wind.ts';
import { type KeptTable, type RemarkKeeper, restored } from './kept.ts';
import type { KeptPortfolio } from './read.ts';
import { keepSaid, saidCodes, saidColumns } from './said.ts';

/** What every shard of a run is scored with. */
export interface ShardRun {
  readonly engine: KeepingEngine;
  readonly portfolio: KeptPortfolio;
  readonly side: SideFiles;
  readonly making: MadeRain;
  readonly settings: Settings;
  readonly remarks: RemarkKeeper;
}

/** Consecutive buildings: `b` of `kept.building` from `from` (inclusive) to `to` (exclusive). */
export interface Shard {
  readonly from: number;
  readonly to: number;
}

const within = ({ from, to }: Shard): string => `k.b >= ${from} AND k.b < ${to}`;

/** The method counts its buildings from 0 without a gap. */
const ordinal = ({ from }: Shard): string => `k.b - ${from} AS b`;

/** Columns of `ranking` that say the same in every row, are no part of the output, or are known only when all are scored. */
const left = ['rank', 'rain_source', 'rain_period', 'address', 'city', 'region'];

/**
 * Scores some of the buildings by the method as it stands (pipeline.ts) and adds their rows to `kept.result`: those of the
 * view `ranking` without rank, and the user's own columns. Either all of it is kept or nothing.
 */
export async function scoreShard(run: ShardRun, shard: Shard, watching: Watching): Promise<void> {
  const { engine, settings, side } = run;
  await loadBuildings(run, shard);
  const noted = await loadWalls(run, shard);
  const wind = side.weather ? ofRecord(side.weather) : noRecord(settings.constants);
  await score(engine, settings, wind, steps, watching);
  await engine.query(`CREATE OR REPLACE TABLE ranked AS SELECT * EXCLUDE (${left}) FROM ranking`);
  await engine.query('BEGIN TRANSACTION');
  try {
    for (const [i, file] of run.portfolio.wallFiles.entries()) {
      const own = noted.filter((remark) => remark.file === file);
      await run.remarks.keep([], own, 'wall', 1 + i);
    }
    await keepResult(run, shard);
    await engine.query('COMMIT');
  } catch (cause) {
    await engine.query('ROLLBACK');
    throw cause;
  }
}

/** Table `building`: the record of each, what grids say of it, and its rain. */
async function loadBuildings(run: ShardRun, shard: Shard): Promise<void> {
  const { engine, portfolio, side, making, settings } = run;
  const { columns, joins } = restored(portfolio.list, buildingColumns);
  await engine.query(
    `CREATE OR REPLACE TABLE listed AS SELECT ${ordinal(shard)}, ${columns}, k."row" FROM kept.building k ${joins} WHERE ${within(shard)}`,
  );
  const places = await engine.query(
    'SELECT b, longitude, latitude, mean_temp_c FROM listed ORDER BY b',
  );
  const rain = rainAtBuildings(places, making, settings.constants);
  await engine.load('rain_said', rain.said);
  const found = { ...side.atBuildings(places), ...rain.columns };
  await engine.load('found', { n: places.n, cols: { b: places.cols.b!, ...found } });
  const replaced = Object.keys(found).filter((name) =>
    buildingColumns.some((rule) => rule.name === name),
  );
  const record = replaced.length > 0 ? `l.* EXCLUDE (${replaced.map(identifier)})` : 'l.*';
  await engine.query(
    `CREATE OR REPLACE TABLE building AS SELECT ${record}, f.* EXCLUDE (b) FROM listed l JOIN found f USING (b)`,
  );
}

/** Table `wall_record`. Returns what is to be said of records that were given the wall of an earlier file. */
async function loadWalls({ engine, portfolio }: ShardRun, shard: Shard) {
  const { walls, wallFiles } = portfolio;
  const tables = walls.map((table, file) => selectWalls(table, file, shard));
  const all = tables.length > 0 ? tables.join(' UNION ALL ') : noWalls;
  await engine.query(`CREATE OR REPLACE TABLE wall_record AS ${all}`);
  if (walls.length < 2) return [];
  const records = await engine.query('SELECT * FROM wall_record ORDER BY "file", "row"');
  const noted = sameWalls(records, wallFiles);
  if (noted.length > 0) await engine.load('wall_record', records);
  return noted;
}

function selectWalls(table: KeptTable, file: number, shard: Shard): string {
  const { columns, joins } = restored({ ...table, stored: [...table.stored] }, recordColumns);
  return `SELECT ${ordinal(shard)}, i.building_id, ${columns}, k."row", CAST(${file} AS DOUBLE) AS "file"
    FROM kept.${table.name} k JOIN listed i ON i.b = k.b - ${shard.from} ${joins} WHERE ${within(shard)}`;
}

/** The identifier of a building stands with the building alone. */
const recordColumns = wallColumns.filter(({ name }) => name !== 'building_id');

const { columns: blankColumns } = restored({ name: '', stored: [] }, recordColumns);
const noWalls = `SELECT CAST(NULL AS DOUBLE) AS b, CAST(NULL AS VARCHAR) AS building_id, ${blankColumns},
  CAST(NULL AS DOUBLE) AS "row", CAST(NULL AS DOUBLE) AS "file" WHERE false`;

async function keepResult({ engine, portfolio }: ShardRun, shard: Shard): Promise<void> {
  const words = await saidColumns(engine);
  await keepSaid(engine, words);
  const own = portfolio.extras.map(({ column }) => `, k.${column}`).join('');
  const { replace, joins } = saidCodes(words);
  const rows = `SELECT r.* REPLACE (k.b AS b, ${replace})${own}
    FROM ranked r JOIN kept.building k ON k.b = r.b + ${shard.from} AND ${within(shard)} ${joins}`;
  await engine.query(`CREATE TABLE IF NOT EXISTS kept.result AS ${rows} LIMIT 0`);
  await engine.query(`INSERT INTO kept.result ${rows}`);
  const coded = words.map((name) => `('${name}')`).join(', ');
  await engine.query(
    `CREATE OR REPLACE TABLE kept.coded AS SELECT * FROM (VALUES ${coded}) t (name)`,
  );
}
