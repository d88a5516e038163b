import { backward, dot, factorize, forward, forwardAll } from './cholesky.ts';
import type { Pairwise, Shape } from './correlation.ts';

/**
 * Kriging with external drift (universal kriging), on any space with distances.
 *
 * Z(x) = Σ βⱼ fⱼ(x) + residual, with the residual's covariance in units of the sill σ²: 1 + τ² of a datum with itself,
 * exp(−h/r) between two data and between a place and a datum, also where they coincide (h = 0). A place is never taken
 * for a datum: its variance counts the nugget and is never 0, and the estimate does not jump onto the datum. R's
 * gstat::krige agrees everywhere but at the data themselves, where it returns the datum with variance 0.
 */

/** The data: n values, their p drift columns (the first is all 1), and the distance between two of them. */
export interface Field {
  readonly z: Float64Array;
  readonly drift: readonly Float64Array[];
  readonly between: Pairwise;
}

/** Places to krige at: their drift columns, and the distance from place t to datum i. */
export interface Places {
  readonly n: number;
  readonly drift: readonly Float64Array[];
  readonly distance: (t: number, i: number) => number;
}

/** The kriging system of some of the data. Its buffers are filled again for other data: nothing is allocated on the way. */
export interface System {
  /** The data taken, the first m of `ids`. */
  readonly ids: Int32Array;
  m: number;
  /** L of their correlation matrix, m × m. */
  readonly factor: Float64Array;
  /** Right sides, solved: L⁻¹f of every drift column, L⁻¹(z − Fβ), L⁻¹c of a place; m elements each. */
  readonly drift: readonly Float64Array[];
  readonly residual: Float64Array;
  readonly place: Float64Array;
  readonly sides: readonly Float64Array[];
  /** Cholesky factor A of FᵀC⁻¹F, p × p; the diagonal of a column left out is infinite. */
  readonly normal: Float64Array;
  /** Generalised least squares coefficients β, p; 0 of a column left out. */
  readonly beta: Float64Array;
  /** Drift of a place, p; then what the data do not explain of it: A⁻¹(f − FᵀC⁻¹c). */
  readonly gap: Float64Array;
  estimate: number;
  variance: number;
}

export const columns = (count: number, length: number): Float64Array[] =>
  Array.from({ length: count }, () => new Float64Array(length));

/** Buffers for up to `most` data and `p` drift columns. */
export function newSystem(most: number, p: number): System {
  const [residual, place, ...drift] = columns(2 + p, most) as [Float64Array, Float64Array];
  return {
    ids: new Int32Array(most),
    m: 0,
    factor: new Float64Array(most * most),
    drift,
    residual,
    place,
    sides: [residual, place, ...drift],
    normal: new Float64Array(p * p),
    beta: new Float64Array(p),
    gap: new Float64Array(p),
    estimate: Number.NaN,
    variance: Number.NaN,
  };
}

/** A drift column that the others explain but for this share of its square tells nothing here and is left out. */
const leastShare = 1e-8;

function fillMatrix({ factor, ids, m }: System, correlation: Pairwise, nugget: number): void {
  for (let a = 0; a < m; a++) {
    const id = ids[a]!;
    for (let b = 0; b < a; b++) factor[a * m + b] = correlation(id, ids[b]!);
    factor[a * m + a] = 1 + nugget;
  }
}

function fillSides({ residual, drift, ids, m }: System, field: Field): void {
  for (let a = 0; a < m; a++) residual[a] = field.z[ids[a]!]!;
  for (let j = 0; j < drift.length; j++) {
    const column = drift[j]!;
    const of = field.drift[j]!;
    for (let a = 0; a < m; a++) column[a] = of[ids[a]!]!;
  }
}

/** Factors FᵀC⁻¹F. Dividing by an infinite pivot makes every solution 0 in that column, so the others go on without it. */
function factorNormal({ normal, drift, m }: System): void {
  const p = drift.length;
  for (let i = 0; i < p; i++) {
    for (let j = 0; j <= i; j++) {
      const own = dot(drift[i]!, 0, drift[j]!, 0, m);
      const rest = own - dot(normal, i * p, normal, j * p, j);
      if (j < i) normal[i * p + j] = rest / normal[j * p + j]!;
      else normal[i * p + i] = rest > leastShare * own ? Math.sqrt(rest) : Number.POSITIVE_INFINITY;
    }
  }
}

/** β by generalised least squares, and the residual about that drift. */
function fitDrift({ normal, drift, residual, beta, m }: System): void {
  const p = drift.length;
  for (let j = 0; j < p; j++) beta[j] = dot(drift[j]!, 0, residual, 0, m);
  forward(normal, p, beta);
  backward(normal, p, beta);
  for (let j = 0; j < p; j++) {
    const column = drift[j]!;
    const b = beta[j]!;
    for (let a = 0; a < m; a++) residual[a] = residual[a]! - b * column[a]!;
  }
}

/**
 * Sets up and factors the system of the first m of `system.ids`, and solves its right sides, `place` among them if it
 * was filled with correlations.
 */
export function assemble(
  system: System,
  m: number,
  field: Field,
  correlation: Pairwise,
  { nugget }: Shape,
): void {
  system.m = m;
  fillMatrix(system, correlation, nugget);
  if (!factorize(system.factor, m)) throw new Error('two data coincide and there is no nugget');
  fillSides(system, field);
  forwardAll(system.factor, m, system.sides);
  factorNormal(system);
  fitDrift(system);
}

/** Estimate and variance at a place of which `gap` holds the drift and `place` is solved: L⁻¹c. */
export function conclude(system: System, { nugget }: Shape, place = system.place): void {
  const { drift, residual, normal, beta, gap, m } = system;
  const p = drift.length;
  let estimate = dot(place, 0, residual, 0, m);
  for (let j = 0; j < p; j++) {
    estimate += gap[j]! * beta[j]!;
    gap[j] = gap[j]! - dot(drift[j]!, 0, place, 0, m);
  }
  forward(normal, p, gap);
  system.estimate = estimate;
  system.variance = 1 + nugget - dot(place, 0, place, 0, m) + dot(gap, 0, gap, 0, p);
}

/** Drift of element t of these columns into `gap`. */
export function fillDrift({ gap }: System, drift: readonly Float64Array[], t: number): void {
  for (let j = 0; j < gap.length; j++) gap[j] = drift[j]![t]!;
}
