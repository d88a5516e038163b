import { type Column, type Columns, numbers } from '../columns.ts';
import type { Engine } from '../engine/port.ts';

/** Facts of the load, with the column of `load_draw` that holds the value drawn for each. */
const factColumns = {
  runoff: 'runoff',
  terrain: 'terrain',
  height_m: 'height_class',
  roof: 'roof',
  azimuth_deg: 'azimuth_deg',
  wind: 'wind_m_s',
} as const;
type LoadFact = keyof typeof factColumns;

export const loadFacts = Object.keys(factColumns) as readonly LoadFact[];

/** What knowing one fact would leave: for each of its values its share, and the draws that remain. */
interface Given {
  /** Place among `loadFacts`. */
  readonly fact: number;
  readonly levels: readonly {
    readonly share: number;
    /** Coefficients of the case that its draws have, by place, ascending, and the share of each among these draws. */
    readonly places: Int32Array;
    readonly shares: Float64Array;
  }[];
}

/** All draws of one load_case. */
export interface LoadDraws {
  /** Coefficients (L/m² per mm) ascending, equal ones merged. */
  readonly coefficients: Float64Array;
  /** Weight of each, a whole number, and their sum. */
  readonly weights: Float64Array;
  readonly total: number;
  /** Weight of each over the whole. */
  readonly shares: Float64Array;
  /** The facts that are drawn, not recorded. */
  readonly given: readonly Given[];
}

/** Draws of every load_case of `load_draw`. */
export async function loadDraws(engine: Engine): Promise<ReadonlyMap<number, LoadDraws>> {
  const rows = await engine.query('SELECT * FROM load_draw ORDER BY load_case');
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
  const drawn = numbers(rows, 'weight').subarray(from, to);
  const values = numbers(rows, 'l_m2_per_mm').subarray(from, to);
  const coefficients = Float64Array.from(new Set(values)).sort();
  const at = new Map(Array.from(coefficients, (value, i) => [value, i]));
  const places = Int32Array.from(values, (value) => at.get(value)!);
  const weights = new Float64Array(coefficients.length);
  for (const [i, place] of places.entries()) weights[place]! += drawn[i]!;
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return {
    coefficients,
    weights,
    total,
    shares: weights.map((weight) => weight / total),
    given: loadFacts.flatMap((name, fact) => {
      const column = rows.cols[factColumns[name]]!;
      const levels = levelsOf(column.slice(from, to), places, drawn);
      return levels.length > 1 ? [{ fact, levels }] : [];
    }),
  };
}

function levelsOf(column: Column, places: Int32Array, drawn: Float64Array): Given['levels'] {
  const total = drawn.reduce((sum, weight) => sum + weight, 0);
  const members = new Map<unknown, Map<number, number>>();
  for (const [i, place] of places.entries()) {
    const level = members.get(column[i]) ?? new Map<number, number>();
    members.set(column[i], level.set(place, (level.get(place) ?? 0) + drawn[i]!));
  }
  return Array.from(members.values(), (level) => {
    const held = Int32Array.from(level.keys()).sort();
    const own = Float64Array.from(held, (place) => level.get(place)!);
    const weight = own.reduce((sum, one) => sum + one, 0);
    return { share: weight / total, places: held, shares: own.map((one) => one / weight) };
  });
}
