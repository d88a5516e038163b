import type { Column, Columns } from '../columns.ts';
import { type Engine, identifier } from './port.ts';

/** Rows from which a record is stored narrowly: below, it would take longer than it saves. */
const MANY = 50_000;

/** Rows that cross to the engine at once. */
const PART = 131_072;

/** Different words of a column that is stored as places in a list of them. */
const WORDS = 250;

/** Ordinals stay whole numbers when they are read, so that a row is found without reading them all. */
const ordinals: ReadonlySet<string> = new Set(['b', 'row', 'file']);

/** How a column is stored, and how it is read again as what it was. */
interface Storage {
  readonly name: string;
  /** Null where nothing is on record: then it is not stored. */
  readonly type: string | null;
  readonly read: string;
  /** Words of a list of its own, whose name is the type. */
  readonly words?: readonly string[];
}

/**
 * Loads a record of which most columns may hold nothing or few words. `table` becomes a view over `<table>_stored` with
 * every column, in order, as numbers and texts: what a million rows take in the engine is a third of what a plain load
 * takes, and a browser's engine has 3 GB.
 */
export async function loadRecord(engine: Engine, table: string, columns: Columns): Promise<void> {
  const stored = `${table}_stored`;
  const storages = Object.entries(columns.cols).map(([name, column]) =>
    storageOf(table, name, column, columns.n),
  );
  await engine.query(`DROP TABLE IF EXISTS ${identifier(stored)}`);
  for (const { type, words } of storages) {
    if (!words) continue;
    const list = words.map((word) => `'${word.replaceAll("'", "''")}'`).join(', ');
    await engine.query(`DROP TYPE IF EXISTS ${type}`);
    await engine.query(`CREATE TYPE ${type} AS ENUM (${list})`);
  }
  await store(engine, stored, storages, columns);
  const heads = storages.map(({ name, read }) => `${read} AS ${identifier(name)}`);
  await engine.query(
    `CREATE OR REPLACE VIEW ${identifier(table)} AS SELECT ${heads.join(', ')} FROM ${identifier(stored)}`,
  );
}

function storageOf(table: string, name: string, column: Column, n: number): Storage {
  const own = identifier(name);
  const plain = column instanceof Float64Array ? 'DOUBLE' : 'VARCHAR';
  if (n > 0 && !isFilled(column)) return { name, type: null, read: `CAST(NULL AS ${plain})` };
  if (n < MANY) return { name, type: plain, read: own };
  if (column instanceof Float64Array) {
    if (!isWhole(column)) return { name, type: plain, read: own };
    return { name, type: 'INTEGER', read: ordinals.has(name) ? own : `CAST(${own} AS DOUBLE)` };
  }
  const words = wordsOf(column);
  if (!words) return { name, type: plain, read: own };
  return { name, type: identifier(`${table}_${name}`), read: `CAST(${own} AS VARCHAR)`, words };
}

const isFilled = (column: Column): boolean =>
  column instanceof Float64Array
    ? column.some((value) => !Number.isNaN(value))
    : column.some((value) => value !== null);

const isWhole = (column: Float64Array): boolean =>
  column.every((value) => Number.isNaN(value) || (value | 0) === value);

/** The different words in order; null where there are too many. */
function wordsOf(column: readonly (string | null)[]): readonly string[] | null {
  const words = new Set<string>();
  for (const word of column) {
    if (word === null) continue;
    words.add(word);
    if (words.size > WORDS) return null;
  }
  return [...words].sort();
}

/** Row by row into the types; a part at a time, for what crosses lies in the engine's memory twice. */
async function store(
  engine: Engine,
  stored: string,
  storages: readonly Storage[],
  { n, cols }: Columns,
): Promise<void> {
  const kept = storages.filter(({ type }) => type !== null);
  const heads = kept.map(({ name, type }) => `${identifier(name)} ${type}`);
  await engine.query(`CREATE TABLE ${identifier(stored)} (${heads.join(', ')})`);
  for (let from = 0; from < n; from += PART) {
    const part = kept.map(({ name }) => [name, cols[name]!.slice(from, from + PART)] as const);
    const rows = Math.min(PART, n - from);
    await engine.load('part', { n: rows, cols: Object.fromEntries(part) });
    const values = kept.map(({ name, type }) => `CAST(${identifier(name)} AS ${type})`);
    await engine.query(`INSERT INTO ${identifier(stored)} SELECT ${values.join(', ')} FROM part`);
  }
  await engine.query('DROP TABLE IF EXISTS part');
}
