import { numbers, rowObject } from '../columns.ts';
import type { Engine } from '../engine/port.ts';
import { outputRow } from './output.ts';
import rankingText from './ranking.sql?raw';

export type Row = Record<string, number | string | null>;

/** Ranking rows by ordinal, in the order asked for. Two statements: nothing may remake the tables between them. */
export type RankingRows = (engine: Engine, ordinals: Int32Array) => Promise<Row[]>;

/** The tables that `ranking` joins, and the column by which a row of theirs is found. */
const found: readonly (readonly [table: string, column: string])[] = [
  ['building_stored', 'b'],
  ['site_class', 'b'],
  ['tiered', 'b'],
  ['rank_of', 'b'],
  ['fact_share', 'b'],
  ['wall_row', 'wall'],
];

/** Tables and views that rows are read from. */
export const rowsRead: ReadonlySet<string> = new Set([...found.map(([table]) => table), 'wall']);

/** The view's own statement; names that it reads may be given another meaning before it. */
const select = rankingText.slice(rankingText.indexOf('\nSELECT'));

/** Buildings up to which reading all is as fast as an index, and sooner there. */
const few = 20_000;

/**
 * Rows of the ranking of `n` buildings that the last `score` made. The tables get an index each when rows are first asked
 * for: without one a window of forty rows reads a million.
 */
export function rankingRows(n: number): RankingRows {
  let indexed: Promise<void> | undefined;
  return async (engine, ordinals) => {
    if (ordinals.length === 0) return [];
    // Without them, where memory does not suffice, a window takes longer and says the same.
    if (n > few) indexed ??= makeIndexes(engine).catch(() => {});
    await indexed;
    const b = ordinals.join(', ');
    const walls = await engine.query(`SELECT wall FROM tiered WHERE b IN (${b})`);
    const rows = await engine.query(windowText(b, numbers(walls, 'wall').join(', ')));
    const at = new Map(Array.from(numbers(rows, 'b'), (b, i) => [b, i]));
    return Array.from(ordinals, (b) => shown(rowObject(rows, at.get(b)!)));
  };
}

async function makeIndexes(engine: Engine): Promise<void> {
  for (const [table, column] of found) {
    await engine.query(`CREATE INDEX IF NOT EXISTS ${table}_place ON ${table}(${column})`);
  }
}

/**
 * The ranking of a few buildings: each table stands for its rows of them alone. Places are written out, not bound, and
 * every table is asked for its own, for only then does the engine look them up in the index.
 */
const windowText = (b: string, walls: string): string => `WITH
  tiered AS (FROM main.tiered WHERE b IN (${b})),
  rank_of AS (FROM main.rank_of WHERE b IN (${b})),
  fact_share AS (FROM main.fact_share WHERE b IN (${b})),
  site AS (
    SELECT building.*, site_class.* EXCLUDE (b)
    FROM (FROM main.building WHERE b IN (${b})) building
    JOIN (FROM main.site_class WHERE b IN (${b})) site_class USING (b)
  ),
  wall AS (FROM main.wall WHERE wall IN (${walls}))
  ${select}`;

/** All of `ranking` with the output columns in metric; `reason_american` is the same sentence in inches. */
function shown(row: Row): Row {
  return {
    ...row,
    ...outputRow(row, 'metric'),
    reason_american: outputRow(row, 'american').reason ?? null,
  };
}
