import { type Column, type Columns, numbers } from '../columns.ts';
import { type Distribution, distribution } from './interval.ts';

/** Facts of the load, with the column of `load_draw` that holds the value drawn for each. */
export const loadFacts = {
  runoff: 'runoff',
  terrain: 'terrain',
  height_m: 'height_class',
  roof: 'roof',
  azimuth_deg: 'azimuth_deg',
  wind: 'wind_m_s',
} as const;
export type LoadFact = keyof typeof loadFacts;

/** What knowing one fact would leave: for each of its values its share, and the draws that remain. */
interface Given {
  readonly fact: LoadFact;
  readonly levels: readonly {
    readonly share: number;
    /** Share of each coefficient of the case among the draws that have this value. */
    readonly shares: Float64Array;
  }[];
}

/** All draws of one load_case. */
export interface LoadDraws {
  /** Coefficients (L/m² per mm) ascending, equal ones merged. */
  readonly coefficients: Distribution;
  /** Weight of each coefficient over the whole. */
  readonly shares: Float64Array;
  /** The facts that are drawn, not recorded. */
  readonly given: readonly Given[];
}

/** Draws by load_case, of the rows of `load_draw` ordered by load_case. */
export function loadDraws(rows: Columns): Map<number, LoadDraws> {
  const cases = numbers(rows, 'load_case');
  const out = new Map<number, LoadDraws>();
  for (let from = 0; from < rows.n; ) {
    let to = from;
    while (to < rows.n && cases[to] === cases[from]) to++;
    out.set(cases[from]!, drawsOf(rows, from, to));
    from = to;
  }
  return out;
}

function drawsOf(rows: Columns, from: number, to: number): LoadDraws {
  const weights = numbers(rows, 'weight').subarray(from, to);
  const values = numbers(rows, 'l_m2_per_mm').subarray(from, to);
  const merged = new Map<number, number>();
  for (const [i, value] of values.entries()) {
    merged.set(value, (merged.get(value) ?? 0) + weights[i]!);
  }
  const coefficients = distribution([...merged.keys()], [...merged.values()]);
  const at = new Map(Array.from(coefficients.values, (value, i) => [value, i]));
  const places = Int32Array.from(values, (value) => at.get(value)!);
  const facts = Object.keys(loadFacts) as LoadFact[];
  return {
    coefficients,
    shares: sharesAt(places, weights, coefficients.values.length),
    given: facts.flatMap((fact) => {
      const column = rows.cols[loadFacts[fact]]!;
      const levels = levelsOf(column.slice(from, to), places, weights, coefficients.values.length);
      return levels.length > 1 ? [{ fact, levels }] : [];
    }),
  };
}

function sharesAt(places: Int32Array, weights: Float64Array, n: number): Float64Array {
  const out = new Float64Array(n);
  let total = 0;
  for (const [i, place] of places.entries()) {
    out[place]! += weights[i]!;
    total += weights[i]!;
  }
  return out.map((weight) => weight / total);
}

function levelsOf(column: Column, places: Int32Array, weights: Float64Array, n: number) {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const members = new Map<unknown, number[]>();
  for (const i of places.keys()) members.set(column[i], [...(members.get(column[i]) ?? []), i]);
  return Array.from(members.values(), (ids) => {
    const own = Float64Array.from(ids, (i) => weights[i]!);
    const share = own.reduce((sum, weight) => sum + weight, 0) / total;
    return {
      share,
      shares: sharesAt(
        Int32Array.from(ids, (i) => places[i]!),
        own,
        n,
      ),
    };
  });
}
