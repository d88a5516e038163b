import { numbers } from '../columns.ts';
import type { Engine } from '../engine/port.ts';

/**
 * The draws of every assembly_case, alike ones merged: draws `start[a] … start[a + 1]` of case a. d and s are places in
 * the few values that occur, so that a power is taken once a value and not once a draw.
 */
export interface AssemblyDraws {
  readonly start: Int32Array;
  readonly d: Int32Array;
  readonly s: Int32Array;
  readonly weight: Float64Array;
  readonly deficiencies: Float64Array;
  readonly susceptibilities: Float64Array;
}

const drawText = `SELECT CAST(assembly_case AS DOUBLE) AS assembly_case, d, s, CAST(sum(weight) AS DOUBLE) AS weight
  FROM assembly_draw GROUP BY ALL ORDER BY ALL`;

/** The draws of the table `assembly_draw`. */
export async function assemblyDraws(engine: Engine): Promise<AssemblyDraws> {
  const rows = await engine.query(drawText);
  const cases = numbers(rows, 'assembly_case');
  const [d, s] = [placed(numbers(rows, 'd')), placed(numbers(rows, 's'))];
  return {
    start: starts(cases),
    d: d.places,
    s: s.places,
    weight: numbers(rows, 'weight'),
    deficiencies: d.values,
    susceptibilities: s.values,
  };
}

/** Where each of the cases 0, 1, 2 … begins among ascending rows, and where the last ends. */
export function starts(cases: Float64Array): Int32Array {
  const out = new Int32Array((cases.at(-1) ?? -1) + 2);
  for (const id of cases) out[id + 1]!++;
  for (let i = 1; i < out.length; i++) out[i]! += out[i - 1]!;
  return out;
}

function placed(column: Float64Array): {
  readonly values: Float64Array;
  readonly places: Int32Array;
} {
  const values = Float64Array.from(new Set(column)).sort();
  const at = new Map(Array.from(values, (value, i) => [value, i]));
  return { values, places: Int32Array.from(column, (value) => at.get(value)!) };
}

/** ds_mean of every assembly_case in millionths, rounded as in draw.sql and assembly.sql. */
export function assemblyMeans(
  draws: AssemblyDraws,
  weights: { readonly deficiency: number; readonly susceptibility: number },
): Int32Array {
  const { start, d, s, weight } = draws;
  const powerD = draws.deficiencies.map((x) => x ** weights.deficiency);
  const powerS = draws.susceptibilities.map((x) => x ** weights.susceptibility);
  const out = new Int32Array(start.length - 1);
  for (let a = 0; a < out.length; a++) {
    let [sum, total] = [0, 0];
    for (let i = start[a]!; i < start[a + 1]!; i++) {
      sum += weight[i]! * Math.round(powerD[d[i]!]! * powerS[s[i]!]! * 1e6);
      total += weight[i]!;
    }
    out[a] = Math.round((sum / total / 1e6) * 1e6);
  }
  return out;
}
