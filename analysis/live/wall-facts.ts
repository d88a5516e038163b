import { type Columns, numbers } from '../columns.ts';
import type { Engine } from '../engine/port.ts';

/**
 * The distinct walls of a scored portfolio. A *load* is one load_case of one building; the loads of building b are
 * `loadStart[b] … loadStart[b + 1]`, and the assembly_cases of its walls under load p are
 * `assembly[assemblyStart[p] … assemblyStart[p + 1]]`. Walls that share both are one.
 */
export interface WallFacts {
  readonly loadStart: Int32Array;
  /** load_case of each load. */
  readonly loadCase: Int32Array;
  /** w_mean of each load as last scored, in millionths. */
  readonly scored: Int32Array;
  readonly assemblyStart: Int32Array;
  readonly assembly: Int32Array;
}

/** Buildings asked for at once: the answer of the engine then stays below some 15 MB. */
const buildingsAtOnce = 131_072;

/** Asks for the rows of buildings `?` … `?` (the second left out) until all `n` were asked for. */
export async function inParts(
  engine: Engine,
  n: number,
  text: string,
  take: (rows: Columns) => void,
): Promise<void> {
  for (let from = 0; from < n; from += buildingsAtOnce) {
    take(await engine.query(text, [from, from + buildingsAtOnce]));
  }
}

// Doubles leave either engine fastest: whole numbers of other types are boxed one by one. What decided the index under the
// last weights comes first: it mostly does under others, and a branch that mostly goes one way is fast.
const wallText = `SELECT CAST(b AS DOUBLE) AS b, CAST(load_case AS DOUBLE) AS load_case,
    CAST(assembly_case AS DOUBLE) AS assembly_case, w_mean
  FROM alike_index
  WHERE assembly_case IS NOT NULL AND w_mean IS NOT NULL AND b >= ? AND b < ?
  ORDER BY alike_index.b, w_mean DESC, alike_index.load_case, index DESC`;
const sizeText = `SELECT count(*) AS walls FROM alike_index
  WHERE assembly_case IS NOT NULL AND w_mean IS NOT NULL`;

/** The distinct walls of the tables that the last `score` made, of `n` buildings; those without rain have none. */
export async function wallFacts(engine: Engine, n: number): Promise<WallFacts> {
  const list = openList(n, numbers(await engine.query(sizeText), 'walls')[0]!);
  await inParts(engine, n, wallText, (rows) => append(list, rows));
  return closed(list);
}

interface List extends WallFacts {
  loads: number;
  walls: number;
}

const openList = (n: number, walls: number): List => ({
  loadStart: new Int32Array(n + 1),
  loadCase: new Int32Array(walls),
  scored: new Int32Array(walls),
  assemblyStart: new Int32Array(walls + 1),
  assembly: new Int32Array(walls),
  loads: 0,
  walls: 0,
});

/** Rows in order of building, then of load_case within it, behind those that came before. */
function append(list: List, rows: Columns): void {
  const b = numbers(rows, 'b');
  const loadCase = numbers(rows, 'load_case');
  const assemblyCase = numbers(rows, 'assembly_case');
  const w = numbers(rows, 'w_mean');
  for (let i = 0; i < rows.n; i++) {
    if (i === 0 || b[i] !== b[i - 1] || loadCase[i] !== loadCase[i - 1]) {
      list.loadCase[list.loads] = loadCase[i]!;
      list.scored[list.loads] = Math.round(w[i]! * 1e6);
      list.assemblyStart[list.loads++] = list.walls;
      list.loadStart[b[i]! + 1]!++;
    }
    list.assembly[list.walls++] = assemblyCase[i]!;
  }
}

/** The list cut to its length; `loadStart` held the number of loads of each building until now. */
function closed({ loads, walls, ...list }: List): WallFacts {
  list.assemblyStart[loads] = walls;
  for (let b = 1; b < list.loadStart.length; b++) list.loadStart[b]! += list.loadStart[b - 1]!;
  return {
    loadStart: list.loadStart,
    loadCase: list.loadCase.slice(0, loads),
    scored: list.scored.slice(0, loads),
    assemblyStart: list.assemblyStart.slice(0, loads + 1),
    assembly: list.assembly.slice(0, walls),
  };
}
