import { type Columns, numbers } from '../columns.ts';
import type { Constants } from '../constants.ts';
import type { Engine } from '../engine/port.ts';
import { loadDraws, loadFacts } from './load-draws.ts';
import {
  type LoadFactor,
  type LoadMoments,
  loadFactor,
  loadFactorReads,
  loadMoments,
} from './load-factor.ts';
import { inParts, rainOf } from './walls-in-parts.ts';

/** Facts behind the cladding, in `assembly_value`. */
const assemblyFacts = ['material', 'installed', 'sheathing', 'drainage', 'gap_mm'] as const;

const columns = ['rain', ...loadFacts, ...assemblyFacts].map((fact) => `share_${fact}`);

interface Assembly {
  readonly mean: number;
  readonly square: number;
  /** Variance of the mean of ds given each of `assemblyFacts`. */
  readonly explained: Float64Array;
}

/**
 * Step fact_share: one row a building with an index.
 *   share_<fact>   0-1, rounded to 1e-6: Var(E[index | fact]) / Var(index) of the wall that sets its index; 0 where the
 *                  fact is on record
 * The draws of the load, given the rain, and those of the assembly are independent; so are the load's facts of each other.
 */
export async function factShares(engine: Engine, constants: Constants): Promise<void> {
  const factor = loadFactor(await loadDraws(engine), constants);
  const assemblies = assembliesOf(await engine.query(valueText));
  const moments = loadMoments();
  await inParts(engine, 'fact_share', 'building', wallText, (walls) =>
    sharesOf(walls, factor, moments, assemblies),
  );
}

/** What the step reads: tables and constants. */
export const factShareReads = [
  ...['building_index', 'alike_index', 'building', 'assembly', 'assembly_value'],
  ...loadFactorReads,
];

const wallText = `SELECT CAST(i.b AS DOUBLE) AS b, CAST(a.load_case AS DOUBLE) AS load_case,
    CAST(a.assembly_case AS DOUBLE) AS assembly_case, s.rain_1, s.rain_2, s.rain_3, s.rain_4, s.rain_5
  FROM building_index i JOIN alike_index a USING (alike) JOIN building s ON s.b = i.b
  WHERE i.index IS NOT NULL AND i.b >= ? AND i.b < ? ORDER BY i.b`;
const valueText =
  'SELECT v.*, a.ds_mean FROM assembly_value v JOIN assembly a USING (assembly_case) ORDER BY assembly_case';

const assembliesOf = (values: Columns): ReadonlyMap<number, Assembly> =>
  new Map(
    Array.from(numbers(values, 'assembly_case'), (id, i) => [
      id,
      {
        mean: numbers(values, 'ds_mean')[i]!,
        square: numbers(values, 'ds_square')[i]!,
        explained: Float64Array.from(assemblyFacts, (fact) => numbers(values, `v_${fact}`)[i]!),
      },
    ]),
  );

function sharesOf(
  walls: Columns,
  factor: LoadFactor,
  moments: LoadMoments,
  assemblies: ReadonlyMap<number, Assembly>,
): Columns {
  const loadCase = numbers(walls, 'load_case');
  const assemblyCase = numbers(walls, 'assembly_case');
  const rain = rainOf(walls);
  const out = columns.map(() => new Float64Array(walls.n));
  const shares = new Float64Array(columns.length);
  for (let i = 0; i < walls.n; i++) {
    factor.meet(loadCase[i]!, rain.at(i));
    moments.weigh(factor);
    fillShares(shares, moments, assemblies.get(assemblyCase[i]!)!);
    for (let c = 0; c < out.length; c++) out[c]![i] = shares[c]!;
  }
  const named = columns.map((name, c) => [name, out[c]!] as const);
  return { n: walls.n, cols: { b: numbers(walls, 'b'), ...Object.fromEntries(named) } };
}

/** In the order of `columns`. */
function fillShares(shares: Float64Array, load: LoadMoments, assembly: Assembly): void {
  const variance = load.square * assembly.square - (load.mean * assembly.mean) ** 2;
  const ofLoad = load.explained.length;
  for (let c = 0; c < shares.length; c++) {
    const [explained, other] =
      c < ofLoad
        ? [load.explained[c]!, assembly.mean]
        : [assembly.explained[c - ofLoad]!, load.mean];
    const share =
      variance > 1e-12 ? Math.min(1, Math.max(0, (explained * other * other) / variance)) : 0;
    shares[c] = Math.round(share * 1e6) / 1e6;
  }
}
