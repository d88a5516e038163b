import { rowObject } from '../columns.ts';
import { identifier, type KeepingEngine } from '../engine/port.ts';
import { about } from '../export/about.ts';
import type { Assets } from '../inputs.ts';
import { loadReference } from '../pipeline.ts';
import { rainMaking } from '../rain/making.ts';
import type { ByteSource } from '../read/outcome.ts';
import type {
  ExportFormat,
  FileReport,
  Inputs,
  ReadReport,
  Tier,
  Watching,
} from '../session-types.ts';
import type { Settings } from '../settings.ts';
import { remarkKeeper } from './kept.ts';
import { type Put, putKept, rankKept, tierCounts, type Wanted } from './ranked.ts';
import { type BatchSizes, type KeptPortfolio, readKept, sideFilesOf } from './read.ts';
import { scoreShard } from './shard.ts';

/** With these, and 2.5 GB for the engine, a million buildings took 2.9 GB in all, and ten million are ranked in 3.4. */
const defaultSizes: BatchSizes = { part: 50_000, shard: 200_000 };

export interface BatchOptions {
  readonly engine: KeepingEngine;
  readonly inputs: Inputs;
  readonly assets: Assets;
  readonly settings: Settings;
  /** What will be written: what does not fit it is refused before it is scored. */
  readonly format: ExportFormat;
  /** Names everything that the outcome hangs on: files, settings, version. A kept run of another key is thrown away. */
  readonly key: string;
  readonly watching?: Watching;
  readonly sizes?: BatchSizes;
}

/** How a run began: with nothing, in the place of one that was made from something else, or where one had stopped. */
type Begun = 'new' | 'changed' | { readonly scored: number };

/** A portfolio that is kept in the engine's file, scored and ranked. */
export interface BatchRun {
  readonly begun: Begun;
  readonly report: ReadReport;
  readonly counts: Readonly<Record<Tier, number>>;
  readonly about: (digest?: (file: ByteSource) => Promise<string>) => Promise<string>;
  /** Puts the bytes of the ranking one after the other: the same bytes as those of a run in memory. */
  readonly put: (wanted: Wanted, put: Put) => Promise<void>;
}

/**
 * Reads, scores and ranks a portfolio of any size in bounded memory: rows are kept in the engine's file as they are read,
 * buildings are scored some at a time, and what is found for them is ranked at the end. A run that was stopped goes on
 * after the last buildings that were scored. Throws as `Analyst.open` does.
 */
export async function runBatch(options: BatchOptions): Promise<BatchRun> {
  const { engine, inputs, assets, settings, format } = options;
  const { watching = {}, sizes = defaultSizes } = options;
  await loadReference(engine);
  const { portfolio, before } = await keptPortfolio(options, sizes);
  if (format === 'xlsx') {
    const { refuseTooLarge } = await import('../export/workbook.ts');
    refuseTooLarge(portfolio.n, portfolio.extras.length);
  }
  const side = await sideFilesOf(engine, inputs, assets, watching);
  const making = rainMaking(side, settings.constants);
  const remarks = remarkKeeper(engine, await keptRemarks(engine));
  const run = { engine, portfolio, side, making, settings, remarks };
  const scored = await scoredBefore(engine);
  for (let from = scored; from < portfolio.n; from += sizes.shard) {
    const shard = { from, to: Math.min(from + sizes.shard, portfolio.n) };
    await scoreShard(run, shard, shareOf(watching, shard, portfolio.n));
  }
  watching.onProgress?.({ what: 'Ranking', share: null });
  await rankKept(engine);
  const report = { demo: inputs.demo ?? false, files: await withSameWalls(engine, portfolio) };
  return {
    begun: before === 'same' ? { scored } : before,
    report,
    counts: await tierCounts(engine),
    about: (digest) =>
      about({ portfolio: { report, inputs, weather: side.weather }, settings, making }, digest),
    put: (wanted, put) => putKept(engine, portfolio, making, wanted, put, watching),
  };
}

/** Progress of the whole, told by the share of one shard that is done. */
function shareOf(
  { signal, onProgress }: Watching,
  { from, to }: { readonly from: number; readonly to: number },
  n: number,
): Watching {
  return {
    ...(signal ? { signal } : {}),
    onProgress: ({ what, share }) =>
      onProgress?.({ what, share: (from + (share ?? 0) * (to - from)) / n }),
  };
}

const tablesText =
  "SELECT table_name AS name FROM duckdb_tables() WHERE database_name = 'kept' ORDER BY 1";

async function keptTables(engine: KeepingEngine): Promise<string[]> {
  const { cols } = await engine.query(tablesText);
  return cols.name as string[];
}

/** The portfolio as kept by an earlier run with this key; else read anew. */
async function keptPortfolio(
  { engine, inputs, assets, settings, key, watching = {} }: BatchOptions,
  sizes: BatchSizes,
): Promise<{ readonly portfolio: KeptPortfolio; readonly before: 'new' | 'changed' | 'same' }> {
  const tables = await keptTables(engine);
  const own = `${key} ${JSON.stringify(sizes)}`;
  if (tables.includes('run')) {
    const run = rowObject(await engine.query('SELECT * FROM kept.run'), 0);
    if (run.key === own) return { portfolio: JSON.parse(`${run.portfolio}`), before: 'same' };
  }
  for (const table of tables) await engine.query(`DROP TABLE kept.${identifier(table)}`);
  const asOf = settings.constants.as_of!;
  const portfolio = await readKept(engine, inputs, assets, asOf, watching, sizes);
  // Last, so that a reading that was stopped is no run.
  const cols = { key: [own], portfolio: [JSON.stringify(portfolio)] };
  await engine.append('run', { n: 1, cols });
  return { portfolio, before: tables.includes('run') ? 'changed' : 'new' };
}

async function keptRemarks(engine: KeepingEngine): Promise<number> {
  if (!(await keptTables(engine)).includes('remark')) return 0;
  const { n } = rowObject(await engine.query('SELECT count(*) AS n FROM kept.remark'), 0);
  return Number(n);
}

/** Number of buildings of which a result is kept: they are the first ones. */
async function scoredBefore(engine: KeepingEngine): Promise<number> {
  if (!(await keptTables(engine)).includes('result')) return 0;
  const { n } = rowObject(await engine.query('SELECT count(*) AS n FROM kept.result'), 0);
  return Number(n);
}

/** Records that were given the wall of an earlier file are found when their building is scored. */
async function withSameWalls(
  engine: KeepingEngine,
  { files, walls }: KeptPortfolio,
): Promise<FileReport[]> {
  if (walls.length < 2 || !(await keptTables(engine)).includes('remark')) return [...files];
  const found = await engine.query(
    "SELECT file, count(*) AS n FROM kept.remark WHERE code = 'same-wall' GROUP BY file",
  );
  const times = new Map(
    Array.from({ length: found.n }, (_, i) => {
      const { file, n } = rowObject(found, i);
      return [`${file}`, Number(n)];
    }),
  );
  return files.map((report) =>
    report.role === 'walls'
      ? { ...report, noted: report.noted + (times.get(report.file) ?? 0) }
      : report,
  );
}
