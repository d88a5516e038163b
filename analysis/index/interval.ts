import { type Columns, numbers } from '../columns.ts';
import type { Engine } from '../engine/port.ts';
import type { Settings } from '../settings.ts';

/** A weighted discrete set, values ascending; `cumulative[i]` is the weight of values[0 … i] over the whole. */
export interface Distribution {
  readonly values: Float64Array;
  readonly cumulative: Float64Array;
}

/** Slack of the quantile rule: the smallest value whose cumulative weight ≥ q − 1e-12. */
const SLACK = 1e-12;

/** Builds a Distribution from unsorted values and positive weights. */
export function distribution(values: readonly number[], weights: readonly number[]): Distribution {
  const order = values.map((_, i) => i).sort((a, b) => values[a]! - values[b]!);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  let sum = 0;
  return {
    values: Float64Array.from(order, (i) => values[i]!),
    cumulative: Float64Array.from(order, (i) => {
      sum += weights[i]!;
      return sum / total;
    }),
  };
}

/**
 * Quantile of the product of two independent non-negative discrete variables, exact to 1e-9: the smallest product
 * whose cumulative weight reaches q. Bisects on the product instead of forming all |a|·|b| of them.
 */
export function productQuantile(a: Distribution, b: Distribution, q: number): number {
  let low = 0;
  let high = a.values[a.values.length - 1]! * b.values[b.values.length - 1]!;
  if (cumulativeProduct(a, b, low) >= q - SLACK) return low;
  for (let i = 0; i < 40 && high - low > 1e-9; i++) {
    const middle = (low + high) / 2;
    if (cumulativeProduct(a, b, middle) >= q - SLACK) high = middle;
    else low = middle;
  }
  return high;
}

/** P(a·b ≤ t). As a rises the greatest b that keeps the product within t falls, so one pass over both is enough. */
function cumulativeProduct(a: Distribution, b: Distribution, t: number): number {
  let sum = 0;
  let before = 0;
  let j = b.values.length - 1;
  for (let i = 0; i < a.values.length; i++) {
    const value = a.values[i]!;
    while (j >= 0 && value * b.values[j]! > t) j--;
    if (j < 0) return sum;
    sum += (a.cumulative[i]! - before) * b.cumulative[j]!;
    before = a.cumulative[i]!;
  }
  return sum;
}

/**
 * Step wall_interval: one row a scored wall with rain, index_low and index_high (0-100, rounded to 1e-6), the
 * quantiles of 100 · w^α · d^β · s^γ over the draws of the wall's load and of its assembly. Walls of a building
 * that share both cases are worked out once.
 */
export async function wallIntervals(engine: Engine, settings: Settings): Promise<void> {
  const loads = grouped(await engine.query(loadText), 'load_case', 'l_m2_per_mm');
  const assemblies = grouped(await engine.query(assemblyText), 'assembly_case', 'ds');
  const walls = await engine.query(wallText);
  await engine.load('wall_interval', intervals(walls, loads, assemblies, settings));
}

const loadText =
  'SELECT load_case, l_m2_per_mm, sum(weight) AS weight FROM load_draw GROUP BY ALL ORDER BY ALL';
const assemblyText =
  'SELECT assembly_case, ds, sum(weight) AS weight FROM assembly_draw GROUP BY ALL ORDER BY ALL';
const wallText = `SELECT c.wall, c.b, c.load_case, c.assembly_case, s.rain_mm
  FROM wall_case c JOIN site s USING (b)
  WHERE c.assembly_case IS NOT NULL AND s.rain_mm IS NOT NULL
  ORDER BY c.b, c.load_case, c.assembly_case, c.wall`;

/** Distributions by case number, of rows ordered by case. */
function grouped(rows: Columns, key: string, value: string): Map<number, Distribution> {
  const cases = numbers(rows, key);
  const values = numbers(rows, value);
  const weights = numbers(rows, 'weight');
  const out = new Map<number, Distribution>();
  for (let from = 0; from < rows.n; ) {
    let to = from;
    while (to < rows.n && cases[to] === cases[from]) to++;
    out.set(
      cases[from]!,
      distribution([...values.subarray(from, to)], [...weights.subarray(from, to)]),
    );
    from = to;
  }
  return out;
}

function intervals(
  walls: Columns,
  loads: Map<number, Distribution>,
  assemblies: Map<number, Distribution>,
  settings: Settings,
): Columns {
  const [b, loadCase, assemblyCase, rain] = ['b', 'load_case', 'assembly_case', 'rain_mm'].map(
    (name) => numbers(walls, name),
  ) as [Float64Array, Float64Array, Float64Array, Float64Array];
  const low = new Float64Array(walls.n);
  const high = new Float64Array(walls.n);
  for (let i = 0; i < walls.n; i++) {
    const same =
      i > 0 &&
      b[i] === b[i - 1] &&
      loadCase[i] === loadCase[i - 1] &&
      assemblyCase[i] === assemblyCase[i - 1];
    if (same) {
      low[i] = low[i - 1]!;
      high[i] = high[i - 1]!;
      continue;
    }
    const load = loadFactor(loads.get(loadCase[i]!)!, rain[i]!, settings);
    const assembly = assemblies.get(assemblyCase[i]!)!;
    low[i] = rounded(100 * productQuantile(load, assembly, settings.interval_low!));
    high[i] = rounded(100 * productQuantile(load, assembly, settings.interval_high!));
  }
  return { n: walls.n, cols: { wall: numbers(walls, 'wall'), index_low: low, index_high: high } };
}

/** w^α of each draw: rising in the coefficient, so the order and the weights stay. Rounded as in wetting.sql. */
function loadFactor(coefficients: Distribution, rainMm: number, settings: Settings): Distribution {
  const halfLoad = settings.half_load_l_m2!;
  const values = coefficients.values.map((coefficient) => {
    const wetting = Math.round(coefficient * rainMm * 1e5) / 1e5;
    return rounded(rounded(wetting / (wetting + halfLoad)) ** settings.weight_load!);
  });
  return { values, cumulative: coefficients.cumulative };
}

const rounded = (x: number): number => Math.round(x * 1e6) / 1e6;
