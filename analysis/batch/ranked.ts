import { type Columns, numbers, rowObject } from '../columns.ts';
import { identifier, type KeepingEngine } from '../engine/port.ts';
import {
  type OutHead,
  type OutTable,
  type OutValue,
  outTable,
  rowBatches,
} from '../export/out-table.ts';
import { putRanking, rankingBytes, rowsOfABatch } from '../export/write.ts';
import { steps } from '../pipeline.ts';
import type { MadeRain } from '../rain/making.ts';
import type { ExportFormat, Watching } from '../session-types.ts';
import { type Tier, tiers } from '../session-types.ts';
import type { UnitSystem } from '../units.ts';
import type { KeptPortfolio } from './read.ts';
import { saidWords, withWords } from './said.ts';

/** What is left in memory of the last shard, of which the ranking of all needs nothing. */
async function dropShard(engine: KeepingEngine): Promise<void> {
  for (const kind of ['view', 'table']) {
    const text = `SELECT ${kind}_name AS name FROM duckdb_${kind}s() WHERE database_name = 'memory' AND NOT internal`;
    const { cols } = await engine.query(text);
    for (const name of cols.name as string[])
      await engine.query(`DROP ${kind} ${identifier(name)}`);
  }
}

/** Makes table `rank_of` over all that is kept, by the statement that ranks a portfolio in memory. */
export async function rankKept(engine: KeepingEngine): Promise<void> {
  await dropShard(engine);
  await engine.query('CREATE VIEW tiered AS SELECT * FROM kept.result');
  await engine.query('CREATE VIEW site AS SELECT b, building_id FROM kept.result');
  const step = steps.find(({ name }) => name === 'rank_of');
  if (!step || !('sql' in step)) throw new Error('no statement ranks');
  await engine.query(step.sql);
}

/** Number of buildings in each tier. */
export async function tierCounts(engine: KeepingEngine): Promise<Record<Tier, number>> {
  const found = await engine.query('SELECT tier, count(*) AS n FROM kept.result GROUP BY tier');
  const counts = Object.fromEntries(tiers.map((tier) => [tier, 0])) as Record<Tier, number>;
  for (let i = 0; i < found.n; i += 1) {
    const { tier, n } = rowObject(found, i);
    counts[tiers[Number(tier)]!] = Number(n);
  }
  return counts;
}

const rankedText = `SELECT r.rank, s.* FROM kept.result s LEFT JOIN rank_of r USING (b)
  ORDER BY r.rank NULLS LAST, s.building_id`;

/** What turns rows of `kept.result` into the rows of a file. */
interface Words {
  readonly portfolio: KeptPortfolio;
  readonly making: MadeRain;
  readonly columns: readonly string[];
  readonly words: readonly string[];
}

export interface Wanted {
  readonly format: ExportFormat;
  readonly units: UnitSystem;
  /** Text of the sidecar. */
  readonly about: string;
}

/** Takes the bytes of a file, one piece after the other. */
export type Put = (bytes: Uint8Array<ArrayBuffer>) => Promise<void> | void;

/** Puts the bytes of the ranking, the same as `rankingBytes` makes of a portfolio in memory. */
export async function putKept(
  engine: KeepingEngine,
  portfolio: KeptPortfolio,
  making: MadeRain,
  { format, units, about }: Wanted,
  put: Put,
  watching: Watching,
): Promise<void> {
  const saying = {
    portfolio,
    making,
    words: await saidWords(engine),
    columns: await coded(engine),
  };
  if (format === 'xlsx') {
    const { rows, extra } = spoken(await engine.query(rankedText), saying);
    return put(await rankingBytes(rows, extra, format, units, about));
  }
  const tables = outTables(engine, saying, units, watching);
  const first = (await tables.next()).value;
  if (!first) throw new Error('a ranking without rows');
  const heads: readonly OutHead[] = first.heads;
  await putRanking({ heads, batches: batchesOf(first, tables) }, format, about, put);
}

/** Columns of `kept.result` that hold codes, as their own table says. */
async function coded(engine: KeepingEngine): Promise<string[]> {
  const { cols } = await engine.query('SELECT name FROM kept.coded ORDER BY name');
  return cols.name as string[];
}

/** Rows of the ranking with the user's own columns apart, as the writers of files take them. */
function spoken(
  found: Columns,
  { portfolio, making, columns, words }: Words,
): { readonly rows: Columns; readonly extra: Columns } {
  const { n, cols } = withWords(found, columns, words);
  const rain = numbers(found, 'rain_mm');
  const where = (text: string) => Array.from(rain, (mm) => (Number.isNaN(mm) ? null : text));
  const extra = portfolio.extras.map(({ name, column }) => [name, cols[column]!] as const);
  const said = { rain_source: where(making.source), rain_period: where(making.period) };
  // Row b of `extra` belongs to the row with that `b`: here they stand side by side.
  const b = Float64Array.from({ length: n }, (_, i) => i);
  return {
    rows: { n, cols: { ...cols, ...said, b } },
    extra: { n, cols: Object.fromEntries(extra) },
  };
}

async function* outTables(
  engine: KeepingEngine,
  saying: Words,
  units: UnitSystem,
  { signal, onProgress }: Watching,
): AsyncGenerator<OutTable> {
  let done = 0;
  for await (const found of engine.stream(rankedText, signal)) {
    const { rows, extra } = spoken(found, saying);
    yield outTable(rows, extra, units);
    done += found.n;
    onProgress?.({ what: 'Writing', share: done / saying.portfolio.n });
  }
}

/** The rows of all tables in batches of the size that files are written in. */
async function* batchesOf(
  first: OutTable,
  rest: AsyncGenerator<OutTable>,
): AsyncGenerator<OutValue[][]> {
  let held = [...rowBatches(first, first.n)].flat();
  for await (const table of rest) {
    for (const rows of rowBatches(table, table.n)) held.push(...rows);
    if (held.length < rowsOfABatch) continue;
    yield held.slice(0, rowsOfABatch);
    held = held.slice(rowsOfABatch);
  }
  if (held.length > 0) yield held;
}
