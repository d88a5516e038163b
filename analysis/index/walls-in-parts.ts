import { type Columns, numbers } from '../columns.ts';
import { type Engine, identifier } from '../engine/port.ts';
import { NODES } from './load-factor.ts';

/** Rows taken at once: some 40 MB on both sides. */
const PART = 250_000;

/**
 * Makes the table `name` from rows asked for by key in parts, so that a kernel never holds a million of them.
 * @param key   whole numbers from 0 in the table of that name
 * @param text  a statement with two `?`: first key, and the first that is left out
 */
export async function inParts(
  engine: Engine,
  name: string,
  key: string,
  text: string,
  make: (rows: Columns) => Columns,
): Promise<void> {
  const n = numbers(await engine.query(`SELECT count(*) AS n FROM ${key}`), 'n')[0]!;
  await engine.load(name, make(await engine.query(text, [0, PART])));
  for (let from = PART; from < n; from += PART) {
    await engine.load('part', make(await engine.query(text, [from, from + PART])));
    await engine.query(`INSERT INTO ${identifier(name)} SELECT * FROM part`);
    await engine.query('DROP TABLE part');
  }
}

/** Nodes of the rain, mm, of the rows asked for. */
export interface RainOfRows {
  /** Whether row i has other rain than the row before it; true for the first. */
  readonly differs: (i: number) => boolean;
  /** The array is used again. */
  readonly at: (i: number) => Float64Array;
}

export function rainOf(rows: Columns): RainOfRows {
  const nodes = [1, 2, 3, 4, 5].map((node) => numbers(rows, `rain_${node}`));
  const rain = new Float64Array(NODES);
  return {
    differs: (i) => i === 0 || nodes.some((node) => node[i] !== node[i - 1]),
    at: (i) => {
      for (let node = 0; node < NODES; node++) rain[node] = nodes[node]![i]!;
      return rain;
    },
  };
}
