import { numbers } from '../columns.ts';
import type { Engine } from '../engine/port.ts';
import { starts } from './assembly-means.ts';
import { roundedLoad } from './rounded-load.ts';

/** The draws of every load_case, alike ones merged: draws `start[c] … start[c + 1]` of case c. */
export interface LoadCases {
  readonly start: Int32Array;
  /** L/m² per mm, ascending within a case. */
  readonly coefficient: Float64Array;
  readonly weight: Float64Array;
  /** Sum of the weights of each case. */
  readonly total: Float64Array;
  /** The greatest coefficient of each case; 0 where no rain meets the wall. */
  readonly greatest: Float64Array;
}

const drawText = `SELECT CAST(load_case AS DOUBLE) AS load_case, l_m2_per_mm, CAST(sum(weight) AS DOUBLE) AS weight
  FROM load_draw GROUP BY ALL ORDER BY ALL`;

/** The draws of the table `load_draw`. */
export async function loadCases(engine: Engine): Promise<LoadCases> {
  const rows = await engine.query(drawText);
  const start = starts(numbers(rows, 'load_case'));
  const [coefficient, weight] = [numbers(rows, 'l_m2_per_mm'), numbers(rows, 'weight')];
  const cases = start.length - 1;
  const [total, greatest] = [new Float64Array(cases), new Float64Array(cases)];
  for (let c = 0; c < cases; c++) {
    for (let i = start[c]!; i < start[c + 1]!; i++) {
      total[c]! += weight[i]!;
      greatest[c] = coefficient[i]!;
    }
  }
  return { start, coefficient, weight, total, greatest };
}

/**
 * The exact mean of w^α over the draws of a load_case and five nodes of rain, in millionths and rounded as in
 * load-factor.ts; `at` is the place of the first of the nodes, in 1e-4 mm.
 */
export type ExactLoad = (loadCase: number, nodes: Int32Array, at: number) => number;

export function exactLoad(cases: LoadCases, alpha: number, halfLoad: number): ExactLoad {
  const { start, coefficient, weight, total } = cases;
  const toLoad = roundedLoad(alpha, halfLoad);
  return (loadCase, nodes, at) => {
    let sum = 0;
    for (let node = at; node < at + 5; node++) {
      const rain = nodes[node]! / 1e4;
      for (let i = start[loadCase]!; i < start[loadCase + 1]!; i++) {
        sum += weight[i]! * toLoad(Math.round(coefficient[i]! * rain * 1e5));
      }
    }
    return Math.round((sum / (5 * total[loadCase]!) / 1e6) * 1e6);
  };
}
