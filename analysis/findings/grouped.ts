import { below, type Random, shuffled } from '../sample/random.ts';
import { chanceAt, devianceOf, type Fit, fitLogistic, linear, type Outcomes } from './logistic.ts';

/** Number of the building of each row, in the order in which buildings appear. */
export function groupsOf(buildings: readonly string[]): { group: Int32Array; count: number } {
  const numbers = new Map<string, number>();
  const group = Int32Array.from(buildings, (building) => {
    if (!numbers.has(building)) numbers.set(building, numbers.size);
    return numbers.get(building)!;
  });
  return { group, count: numbers.size };
}

/** The fold of each row: all walls of a building in one, buildings dealt out in random order. */
export function foldsOf(
  group: Int32Array,
  count: number,
  folds: number,
  random: Random,
): Int32Array {
  const order = shuffled(
    random,
    Int32Array.from({ length: count }, (_, g) => g),
  );
  const foldOfGroup = new Int32Array(count);
  order.forEach((g, position) => {
    foldOfGroup[g] = position % folds;
  });
  return group.map((g) => foldOfGroup[g]!);
}

/** What each row was held to be by a model that saw no wall of its building, and by the base rate alone. */
export interface HeldOut {
  /** Linear predictor. */
  readonly eta: Float64Array;
  readonly base: Float64Array;
}

function baseRate({ y, weight }: Outcomes): number {
  const total = weight.reduce((sum, w) => sum + w, 0);
  return y.reduce((sum, one, i) => sum + weight[i]! * one, 0) / total;
}

/** Fits without each fold in turn, from `start`, and predicts it. Rows without weight are skipped. */
export function heldOut(
  outcomes: Outcomes,
  fold: Int32Array,
  penalty: number,
  start: Float64Array,
  tolerance?: number,
): HeldOut {
  const eta = new Float64Array(fold.length);
  const base = new Float64Array(fold.length);
  for (const f of new Set(fold)) {
    const weight = outcomes.weight.map((w, i) => (fold[i] === f ? 0 : w));
    const rest = { ...outcomes, weight };
    const { beta }: Fit = fitLogistic(rest, penalty, start, tolerance);
    const rate = baseRate(rest);
    fold.forEach((own, i) => {
      if (own !== f) return;
      eta[i] = linear(beta, outcomes.x[i]!);
      base[i] = rate;
    });
  }
  return { eta, base };
}

/** Weighted mean deviance of held-out rows. */
export function meanDeviance({ y, weight }: Outcomes, eta: Float64Array): number {
  const total = weight.reduce((sum, w) => sum + w, 0);
  return y.reduce((sum, one, i) => sum + weight[i]! * devianceOf(eta[i]!, one), 0) / total;
}

/** Brier skill over the base rate: 1 − Σ (y − p)² / Σ (y − base)², weighted; above 0 where the model does better. */
export function brierSkill({ y, weight }: Outcomes, { eta, base }: HeldOut): number {
  let model = 0;
  let rate = 0;
  for (let i = 0; i < y.length; i += 1) {
    model += weight[i]! * (y[i]! - chanceAt(eta[i]!)) ** 2;
    rate += weight[i]! * (y[i]! - base[i]!) ** 2;
  }
  return 1 - model / rate;
}

/** How often each of `count` buildings is drawn in `count` draws with replacement. */
export function redrawn(count: number, random: Random): Int32Array {
  const times = new Int32Array(count);
  for (let i = 0; i < count; i += 1) times[below(random, count)]! += 1;
  return times;
}
