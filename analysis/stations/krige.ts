import { backward, forwardAll } from './cholesky.ts';
import { correlationAt, keptCorrelations, type Pairwise, type Shape } from './correlation.ts';
import {
  assemble,
  columns,
  conclude,
  type Field,
  fillDrift,
  newSystem,
  type Places,
  type System,
} from './system.ts';

/** Fills `ids` with the data that speak for place t, nearest first, and returns how many there are. */
export type Neighbours = (t: number, ids: Int32Array) => number;

/** Estimates, and kriging variances in units of the sill; both n. */
export interface Kriged {
  readonly estimate: Float64Array;
  readonly variance: Float64Array;
}

/** The system of all data, factored once. */
export function wholeSystem(field: Field, shape: Shape): System {
  const n = field.z.length;
  const system = newSystem(n, field.drift.length);
  for (let i = 0; i < n; i++) system.ids[i] = i;
  assemble(system, n, field, (i, j) => correlationAt(field.between(i, j), shape), shape);
  return system;
}

const emptyKriged = (n: number): Kriged => ({
  estimate: new Float64Array(n),
  variance: new Float64Array(n),
});

function keep({ estimate, variance }: System, t: number, out: Kriged): void {
  out.estimate[t] = estimate;
  out.variance[t] = variance;
}

/** Places solved at a time. */
const together = 4;

/** Kriging from all data. */
export function krigeGlobal(field: Field, shape: Shape, places: Places): Kriged {
  const out = emptyKriged(places.n);
  const system = wholeSystem(field, shape);
  const { factor, m } = system;
  const some = columns(together, m);
  for (let from = 0; from < places.n; from += together) {
    const last = Math.min(together, places.n - from);
    for (let q = 0; q < last; q++) {
      for (let i = 0; i < m; i++) {
        some[q]![i] = correlationAt(places.distance(from + q, i), shape);
      }
    }
    forwardAll(factor, m, some);
    for (let q = 0; q < last; q++) {
      fillDrift(system, places.drift, from + q);
      conclude(system, shape, some[q]);
      keep(system, from + q, out);
    }
  }
  return out;
}

/** Kriges at place t from the first m of `system.ids`. */
export function krigeFrom(
  system: System,
  m: number,
  field: Field,
  correlation: Pairwise,
  shape: Shape,
  places: Places,
  t: number,
): void {
  const { ids, place } = system;
  for (let a = 0; a < m; a++) place[a] = correlationAt(places.distance(t, ids[a]!), shape);
  assemble(system, m, field, correlation, shape);
  fillDrift(system, places.drift, t);
  conclude(system, shape);
}

/**
 * Kriging from up to `most` neighbours of each place: drift and residual are both theirs alone. Fastest where places
 * near one another follow one another; what comes out is the same in any order.
 */
export function krigeLocal(
  field: Field,
  shape: Shape,
  places: Places,
  neighbours: Neighbours,
  most: number,
): Kriged {
  const out = emptyKriged(places.n);
  const system = newSystem(most, field.drift.length);
  const correlation = keptCorrelations(field.between, shape, field.z.length);
  for (let t = 0; t < places.n; t++) {
    krigeFrom(system, neighbours(t, system.ids), field, correlation, shape, places, t);
    keep(system, t, out);
  }
  return out;
}

/**
 * Weights of the data in the estimate last concluded, in the order of `system.ids`: the estimate is Σ weight · z, the
 * weights sum to 1 and reproduce every drift column that was not left out.
 */
export function weights({ factor, drift, normal, place, gap, m }: System): Float64Array {
  const p = drift.length;
  const w = place.slice(0, m);
  const a = gap.slice();
  backward(normal, p, a);
  for (let j = 0; j < p; j++) for (let k = 0; k < m; k++) w[k] = w[k]! + a[j]! * drift[j]![k]!;
  backward(factor, m, w);
  return w;
}
