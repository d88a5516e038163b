import { backward, factorize, forward } from '../stations/cholesky.ts';

/** Rows of predictors, each with a leading 1, their outcomes and what each counts. */
export interface Outcomes {
  readonly x: readonly Float64Array[];
  /** 0 or 1. */
  readonly y: Float64Array;
  readonly weight: Float64Array;
}

export interface Fit {
  /** Intercept first. */
  readonly beta: Float64Array;
  /** Lower Cholesky factor of the penalised information matrix, row by row. */
  readonly factor: Float64Array;
}

export const linear = (beta: Float64Array, x: Float64Array): number => {
  let sum = 0;
  for (let k = 0; k < beta.length; k += 1) sum += beta[k]! * x[k]!;
  return sum;
};

export const chanceAt = (eta: number): number => 1 / (1 + Math.exp(-eta));

/** ln(1 + e^x) without overflow. */
const softplus = (x: number): number => Math.max(x, 0) + Math.log1p(Math.exp(-Math.abs(x)));

/** −2 ln likelihood of one outcome. */
export const devianceOf = (eta: number, y: number): number => 2 * (softplus(eta) - y * eta);

/** Σ weight × deviance + penalty × Σ slope². */
function loss({ x, y, weight }: Outcomes, beta: Float64Array, penalty: number): number {
  let sum = 0;
  for (let i = 0; i < y.length; i += 1) {
    if (weight[i]! > 0) sum += weight[i]! * devianceOf(linear(beta, x[i]!), y[i]!);
  }
  for (let k = 1; k < beta.length; k += 1) sum += penalty * beta[k]! ** 2;
  return sum;
}

/** Adds one outcome's part to gradient and information. */
function addRow(
  row: Float64Array,
  weight: number,
  rest: number,
  spread: number,
  gradient: Float64Array,
  information: Float64Array,
): void {
  const n = row.length;
  for (let k = 0; k < n; k += 1) {
    gradient[k]! += weight * rest * row[k]!;
    for (let l = 0; l <= k; l += 1) information[k * n + l]! += weight * spread * row[k]! * row[l]!;
  }
}

/** Gradient (in the place of `step`) and information matrix at beta; the intercept is not penalised. */
function derivatives(
  { x, y, weight }: Outcomes,
  beta: Float64Array,
  penalty: number,
  step: Float64Array,
): Float64Array {
  const n = beta.length;
  const information = new Float64Array(n * n);
  step.fill(0);
  for (let i = 0; i < y.length; i += 1) {
    if (weight[i] === 0) continue;
    const p = chanceAt(linear(beta, x[i]!));
    addRow(x[i]!, weight[i]!, y[i]! - p, p * (1 - p), step, information);
  }
  for (let k = 1; k < n; k += 1) {
    step[k]! -= penalty * beta[k]!;
    information[k * n + k]! += penalty;
  }
  return information;
}

/** Halves a step until the loss falls; the loss is convex, so it will. */
function moved(
  outcomes: Outcomes,
  beta: Float64Array,
  step: Float64Array,
  penalty: number,
): Float64Array {
  const before = loss(outcomes, beta, penalty);
  for (let part = 1; part > 1e-6; part /= 2) {
    const next = beta.map((b, k) => b + part * step[k]!);
    if (loss(outcomes, next, penalty) <= before + 1e-12 * Math.abs(before)) return next;
  }
  return beta;
}

const mostSteps = 60;

/**
 * Logistic regression with ridge: minimises −Σ weight × ln likelihood + penalty/2 × Σ slope² by Newton's steps, from
 * `start`. Throws where the information matrix is singular, which a penalty above 0 rules out.
 */
export function fitLogistic(
  outcomes: Outcomes,
  penalty: number,
  start: Float64Array,
  tolerance = 1e-10,
): Fit {
  const n = start.length;
  let beta = start;
  const step = new Float64Array(n);
  for (let i = 0; ; i += 1) {
    const factor = derivatives(outcomes, beta, penalty, step);
    if (!factorize(factor, n)) throw new Error('the predictors are collinear');
    forward(factor, n, step);
    backward(factor, n, step);
    if (Math.max(...step.map(Math.abs)) < tolerance || i === mostSteps) return { beta, factor };
    beta = moved(outcomes, beta, step, penalty);
  }
}
