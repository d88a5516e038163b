import { numbers, texts } from '../columns.ts';
import { type Engine, identifier } from '../engine/port.ts';
import { arranged } from './arrange.ts';
import { siftColumn, sourceText } from './columns.ts';
import { kept } from './kept.ts';

/** A column of few words: `codes[b]` is the place of its word, −1 where there is no record. Words ascend. */
export interface Category {
  readonly codes: Int32Array;
  readonly words: readonly string[];
}

/**
 * Columns of the ranking by building ordinal, fetched from the engine when first asked for and kept until the next
 * scoring: sorting, filtering and counting a million rows then need no statement.
 */
export interface Held {
  readonly n: number;
  /** NaN: no record. Texts give their place in alphabetical order, categories their code. */
  number(name: string): Promise<Float64Array>;
  category(name: string): Promise<Category>;
  /** Ordinals in order of rank; behind them, in order of building_id, those without one. */
  ranked(): Promise<Int32Array>;
  /** Fetches number columns in one statement a source, ahead of their use. */
  ahead(names: readonly string[]): Promise<void>;
}

/** Columns of the tables that the last `score` made of `n` buildings. */
export function heldColumns(engine: Engine, n: number): Held {
  const byName = new Map<string, Promise<Float64Array>>();
  const categories = new Map<string, Promise<Category>>();
  const number = (name: string) => kept(byName, name, () => numberOf(engine, name, n));
  const orders = new Map<string, Promise<Int32Array>>();
  return {
    n,
    number,
    category: (name) => kept(categories, name, () => categoryOf(engine, name, n)),
    ranked: () => kept(orders, 'rank', async () => byRank(await number('rank'))),
    ahead: async (names) => {
      for (const group of bySource(names.filter((name) => !byName.has(name)))) {
        const fetched = fetchNumbers(engine, group, n);
        for (const [i, name] of group.entries()) {
          kept(byName, name, () => fetched.then((columns) => columns[i]!));
        }
        await fetched;
      }
    },
  };
}

/** Ordinals are in order of building_id. */
function byRank(rank: Float64Array): Int32Array {
  const ordinals = new Int32Array(rank.length);
  for (let b = 0; b < rank.length; b++) ordinals[b] = b;
  return arranged(ordinals, rank, false);
}

const bySource = (names: readonly string[]): readonly string[][] =>
  Object.keys(sourceText)
    .map((source) => names.filter((name) => siftColumn(name).source === source))
    .filter((group) => group.length > 0);

async function numberOf(engine: Engine, name: string, n: number): Promise<Float64Array> {
  const [column] = await fetchNumbers(engine, [name], n);
  return column!;
}

/** Number columns of one source, scattered to the ordinals: an ORDER BY would cost more than the rest. */
async function fetchNumbers(
  engine: Engine,
  names: readonly string[],
  n: number,
): Promise<Float64Array[]> {
  const { source } = siftColumn(names[0]!);
  const selected = names.map((name, i) => `${numberText(name)} AS v${i}`).join(', ');
  const table = await engine.query(`SELECT b, ${selected} FROM ${sourceText[source]} source`);
  const b = numbers(table, 'b');
  return names.map((_, i) => scattered(b, numbers(table, `v${i}`), n));
}

/** The value as a double; of a text its place in alphabetical order. */
function numberText(name: string): string {
  const { kind, text, words } = siftColumn(name);
  const value = text ?? identifier(name);
  if (kind === 'number' || words) return `CAST(${value} AS DOUBLE)`;
  return `CASE WHEN ${value} IS NOT NULL THEN CAST(dense_rank() OVER (ORDER BY ${value} NULLS LAST) AS DOUBLE) END`;
}

function scattered(b: Float64Array, values: Float64Array, n: number): Float64Array {
  const out = new Float64Array(n).fill(Number.NaN);
  for (let i = 0; i < b.length; i++) out[b[i]!] = values[i]!;
  return out;
}

async function categoryOf(engine: Engine, name: string, n: number): Promise<Category> {
  const { source, kind, words: known } = siftColumn(name);
  if (kind !== 'category') throw new Error(`${name} is not a category`);
  if (known) return { codes: codes(await numberOf(engine, name, n)), words: known };
  const value = identifier(name);
  const from = `${sourceText[source]} source`;
  const words = await engine.query(
    `SELECT DISTINCT ${value} AS word FROM ${from} WHERE ${value} IS NOT NULL ORDER BY word`,
  );
  // The place among the words, counted from 1 by numberText.
  const place = await numberOf(engine, name, n);
  return { codes: codes(place, 1), words: texts(words, 'word').map(String) };
}

function codes(values: Float64Array, first = 0): Int32Array {
  const out = new Int32Array(values.length);
  // `Int32Array.from` takes ten times as long over a million.
  for (let b = 0; b < out.length; b++) out[b] = Number.isNaN(values[b]!) ? -1 : values[b]! - first;
  return out;
}
