import { type Columns, numbers } from '../columns.ts';
import type { Engine } from '../engine/port.ts';
import type { Constants } from '../settings.ts';
import { type Distribution, distribution, productQuantile } from './interval.ts';
import { type LoadDraws, type LoadFact, loadDraws, loadFacts } from './load-draws.ts';

/** Facts behind the cladding, in `assembly_value`. */
const assemblyFacts = ['material', 'installed', 'sheathing', 'drainage', 'gap_mm'] as const;

/** What a wall's interval says of itself, in the order of the columns of `wall_interval`. */
const figures = [
  'index_low',
  'index_high',
  'share_rain',
  ...(Object.keys(loadFacts) as LoadFact[]).map((fact) => `share_${fact}`),
  ...assemblyFacts.map((fact) => `share_${fact}`),
];

interface Assembly {
  readonly ds: Distribution;
  readonly mean: number;
  readonly square: number;
  /** Variance of the mean of ds given each of `assemblyFacts`. */
  readonly explained: Float64Array;
}

/**
 * Step wall_interval: one row a scored wall with rain.
 *   index_low, index_high   0-100, rounded to 1e-6: quantiles of 100 · w^α · d^β · s^γ over all draws and rain nodes
 *   share_<fact>            0-1, rounded to 1e-6: Var(E[index | fact]) / Var(index); 0 where the fact is on record
 * The draws of the load, given the rain, and those of the assembly are independent; so are the load's facts of each
 * other. Walls of one building that share both cases are worked out once.
 */
export async function wallIntervals(engine: Engine, constants: Constants): Promise<void> {
  const loads = loadDraws(await engine.query('SELECT * FROM load_draw ORDER BY load_case'));
  const assemblies = assembliesOf(await engine.query(drawText), await engine.query(valueText));
  const walls = await engine.query(wallText);
  await engine.load('wall_interval', intervals(walls, loads, assemblies, constants));
}

/** The step's table without rows: what a run of the means alone puts in its place (the bench). */
export const emptyIntervals = (engine: Engine): Promise<void> =>
  engine.load('wall_interval', {
    n: 0,
    cols: Object.fromEntries(['wall', ...figures].map((name) => [name, new Float64Array(0)])),
  });

const drawText =
  'SELECT assembly_case, ds, sum(weight) AS weight FROM assembly_draw GROUP BY ALL ORDER BY ALL';
const valueText =
  'SELECT v.*, a.ds_mean FROM assembly_value v JOIN assembly a USING (assembly_case) ORDER BY assembly_case';
const wallText = `SELECT c.wall, c.b, c.load_case, c.assembly_case, s.rain_1, s.rain_2, s.rain_3, s.rain_4, s.rain_5
  FROM wall_case c JOIN site s USING (b)
  WHERE c.assembly_case IS NOT NULL AND s.rain_mm IS NOT NULL
  ORDER BY c.b, c.load_case, c.assembly_case, c.wall`;

function assembliesOf(draws: Columns, values: Columns): Map<number, Assembly> {
  const cases = numbers(draws, 'assembly_case');
  const out = new Map<number, Assembly>();
  let from = 0;
  for (const [i, id] of numbers(values, 'assembly_case').entries()) {
    let to = from;
    while (to < draws.n && cases[to] === id) to++;
    out.set(id, {
      ds: distribution(
        [...numbers(draws, 'ds').subarray(from, to)],
        [...numbers(draws, 'weight').subarray(from, to)],
      ),
      mean: numbers(values, 'ds_mean')[i]!,
      square: numbers(values, 'ds_square')[i]!,
      explained: Float64Array.from(assemblyFacts, (fact) => numbers(values, `v_${fact}`)[i]!),
    });
    from = to;
  }
  return out;
}

function intervals(
  walls: Columns,
  loads: ReadonlyMap<number, LoadDraws>,
  assemblies: ReadonlyMap<number, Assembly>,
  constants: Constants,
): Columns {
  const keys = ['b', 'load_case', 'assembly_case'].map((name) => numbers(walls, name));
  const nodes = [1, 2, 3, 4, 5].map((i) => numbers(walls, `rain_${i}`));
  const out = figures.map(() => new Float64Array(walls.n));
  for (let i = 0; i < walls.n; i++) {
    const same = i > 0 && keys.every((key) => key[i] === key[i - 1]);
    if (same) {
      for (const column of out) column[i] = column[i - 1]!;
      continue;
    }
    const rain = nodes.map((node) => node[i]!);
    const load = loadOf(loads.get(keys[1]![i]!)!, rain, constants);
    const found = spreadOf(load, assemblies.get(keys[2]![i]!)!, constants);
    for (const [c, column] of out.entries()) column[i] = rounded(found[c]!);
  }
  const named = figures.map((name, c) => [name, out[c]!] as const);
  return { n: walls.n, cols: { wall: numbers(walls, 'wall'), ...Object.fromEntries(named) } };
}

/** w^α of a wall's draws at each node of the rain, and what knowing each fact would explain of its variance. */
interface Load {
  readonly nodes: readonly Distribution[];
  readonly mean: number;
  readonly square: number;
  readonly explained: ReadonlyMap<LoadFact | 'rain', number>;
}

function loadOf(draws: LoadDraws, rain: readonly number[], constants: Constants): Load {
  const { coefficients, shares, given } = draws;
  const nodes = rain.map((mm) => loadFactor(coefficients, mm, constants));
  const n = coefficients.values.length;
  const byNode = new Float64Array(nodes.length);
  const byDraw = new Float64Array(n);
  let square = 0;
  for (const [i, { values }] of nodes.entries()) {
    for (let m = 0; m < n; m++) {
      const w = values[m]!;
      byNode[i]! += shares[m]! * w;
      byDraw[m]! += w / nodes.length;
      square += (shares[m]! * w * w) / nodes.length;
    }
  }
  const mean = byNode.reduce((sum, w) => sum + w, 0) / nodes.length;
  const explained = new Map<LoadFact | 'rain', number>([
    ['rain', byNode.reduce((sum, w) => sum + (w - mean) ** 2, 0) / nodes.length],
  ]);
  for (const { fact, levels } of given) {
    let variance = 0;
    for (const level of levels) {
      let w = 0;
      for (let m = 0; m < n; m++) w += level.shares[m]! * byDraw[m]!;
      variance += level.share * (w - mean) ** 2;
    }
    explained.set(fact, variance);
  }
  return { nodes, mean, square, explained };
}

/** w^α of each draw: rising in the coefficient, so the order and the weights stay. Rounded as in load_of.sql. */
function loadFactor(
  coefficients: Distribution,
  rainMm: number,
  constants: Constants,
): Distribution {
  const halfLoad = constants.half_load_l_m2!;
  const values = coefficients.values.map((coefficient) => {
    const wetting = Math.round(coefficient * rainMm * 1e5) / 1e5;
    return rounded(rounded(wetting / (wetting + halfLoad)) ** constants.weight_load!);
  });
  return { values, cumulative: coefficients.cumulative };
}

/** The figures of one wall, in the order of `figures`. */
function spreadOf(load: Load, assembly: Assembly, constants: Constants): number[] {
  const variance = load.square * assembly.square - (load.mean * assembly.mean) ** 2;
  const share = (explained: number, other: number): number =>
    variance > 1e-12 ? Math.min(1, Math.max(0, (explained * other * other) / variance)) : 0;
  const quantile = (q: number): number => 100 * productQuantile(load.nodes, assembly.ds, q);
  const loadShare = (fact: LoadFact | 'rain') =>
    share(load.explained.get(fact) ?? 0, assembly.mean);
  return [
    quantile(constants.interval_low!),
    quantile(constants.interval_high!),
    loadShare('rain'),
    ...(Object.keys(loadFacts) as LoadFact[]).map(loadShare),
    ...Array.from(assembly.explained, (explained) => share(explained, load.mean)),
  ];
}

const rounded = (x: number): number => Math.round(x * 1e6) / 1e6;
