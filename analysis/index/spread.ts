import { type Columns, numbers } from '../columns.ts';
import type { Constants } from '../constants.ts';
import type { Engine } from '../engine/port.ts';
import { type Distribution, distribution } from './interval.ts';
import { loadDraws } from './load-draws.ts';
import { type LoadFactor, loadFactor, loadFactorReads } from './load-factor.ts';
import { type Near, productQuantiles } from './product-quantile.ts';
import { inParts, rainOf } from './walls-in-parts.ts';

/**
 * Step spread: one row a set of walls that are alike and have rain.
 *   w_mean                  0-1, rounded to 1e-6: mean of w^α over the draws of the load and the nodes of the rain
 *   index_low, index_high   0-100, rounded to 1e-6: quantiles of 100 · w^α · d^β · s^γ over all draws and rain nodes;
 *                           NULL where the walls are not scored
 * The draws of the load, given the rain, and those of the assembly are independent.
 */
export const spread = (engine: Engine, constants: Constants): Promise<void> =>
  spreadInto(engine, constants, true);

/** What the step reads: tables and constants. */
export const spreadReads = [
  ...['alike', 'building', 'assembly_draw', 'interval_low', 'interval_high'],
  ...loadFactorReads,
];

/** The same without the quantiles, which neither index nor tier needs. */
export const meansAlone = (engine: Engine, constants: Constants): Promise<void> =>
  spreadInto(engine, constants, false);

async function spreadInto(engine: Engine, constants: Constants, ends: boolean): Promise<void> {
  const factor = loadFactor(await loadDraws(engine), constants);
  const assemblies = ends ? await assembliesOf(engine) : new Map<number, Assembly>();
  const quantiles = endsOf(factor, constants);
  await inParts(engine, 'spread', 'alike', wallText, (walls) =>
    spreadOf(walls, factor, assemblies, quantiles),
  );
}

const wallText = `SELECT CAST(a.alike AS DOUBLE) AS alike, CAST(a.load_case AS DOUBLE) AS load_case,
    CAST(a.assembly_case AS DOUBLE) AS assembly_case, s.rain_1, s.rain_2, s.rain_3, s.rain_4, s.rain_5
  FROM alike a JOIN building s USING (b)
  WHERE s.rain_mm IS NOT NULL AND a.alike >= ? AND a.alike < ?
  ORDER BY a.alike`;

interface Found {
  readonly ends: readonly [low: Near, high: Near];
  /** Mean of the load of that wall. */
  mean: number;
}

interface Assembly {
  readonly ds: Distribution;
  /** Where low and high of the last wall of each load_case were found: those of the next lie about there. */
  readonly found: Map<number, Found>;
}

const drawText = `SELECT assembly_case, ds, sum(weight) AS weight
  FROM assembly_draw GROUP BY ALL ORDER BY assembly_case, ds`;

async function assembliesOf(engine: Engine): Promise<ReadonlyMap<number, Assembly>> {
  const draws = await engine.query(drawText);
  const cases = numbers(draws, 'assembly_case');
  const out = new Map<number, Assembly>();
  for (let from = 0; from < draws.n; ) {
    let to = from;
    while (to < draws.n && cases[to] === cases[from]) to++;
    const [ds, weight] = ['ds', 'weight'].map((name) => [
      ...numbers(draws, name).subarray(from, to),
    ]);
    out.set(cases[from]!, { ds: distribution(ds!, weight!), found: new Map() });
    from = to;
  }
  return out;
}

function spreadOf(
  walls: Columns,
  factor: LoadFactor,
  assemblies: ReadonlyMap<number, Assembly>,
  ends: Ends,
): Columns {
  const { n } = walls;
  const loadCase = numbers(walls, 'load_case');
  const assemblyCase = numbers(walls, 'assembly_case');
  const rain = rainOf(walls);
  const mean = new Float64Array(n);
  const low = new Float64Array(n).fill(Number.NaN);
  const high = low.slice();
  for (let i = 0; i < n; i++) {
    if (rain.differs(i) || loadCase[i] !== loadCase[i - 1]) {
      factor.meet(loadCase[i]!, rain.at(i));
    }
    mean[i] = factor.mean;
    const assembly = assemblies.get(assemblyCase[i]!);
    if (!assembly) continue;
    const [lowEnd, highEnd] = ends(assembly, loadCase[i]!);
    low[i] = lowEnd!;
    high[i] = highEnd!;
  }
  const alike = numbers(walls, 'alike');
  return { n, cols: { alike, w_mean: mean, index_low: low, index_high: high } };
}

/** Low and high of the index of the wall that the factor holds, over an assembly. The array is used again. */
type Ends = (assembly: Assembly, loadCase: number) => Float64Array;

function endsOf(factor: LoadFactor, { interval_low, interval_high }: Constants): Ends {
  const quantile = productQuantiles();
  const asked = [interval_low!, interval_high!] as const;
  const out = new Float64Array(asked.length);
  return ({ ds, found }, loadCase) => {
    const last = found.get(loadCase) ?? nowhere(factor.n);
    found.set(loadCase, last);
    const larger = last.mean > 0 ? factor.mean / last.mean : 1;
    for (const [i, near] of last.ends.entries()) {
      near.value *= larger;
      out[i] = Math.round(100 * quantile(factor, ds, asked[i]!, near) * 1e6) / 1e6;
    }
    last.mean = factor.mean;
    return out;
  };
}

function nowhere(n: number): Found {
  const near = (): Near => ({ value: 0, reach: new Int32Array(n) });
  return { ends: [near(), near()], mean: 0 };
}
