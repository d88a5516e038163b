import type { Columns } from '../columns.ts';
import type { LearnedWall } from './calibrate.ts';
import type { PlanOutline } from './plan.ts';
import { respond } from './respond.ts';
import type { Predictors } from './scale.ts';
import { responseClasses, type Weighted } from './weights.ts';

/** What the index knows of a unit of a plan, by its id; null where it scores nothing. */
type PredictorsOf = (id: string) => Predictors | null;

/** A unit drawn more than once is one row with all its weight. */
function onceEach(members: readonly Weighted[]): Weighted[] {
  const once = new Map<string, Weighted>();
  for (const one of members) {
    const before = once.get(one.unit);
    once.set(one.unit, before ? { ...before, weight: before.weight + one.weight } : one);
  }
  return [...once.values()];
}

/**
 * The walls that the calibration may learn from: the answered units of a plan drawn by chance, one row each, with the
 * weight of its class. Replacements and findings outside the plan teach nothing here.
 */
export function learnedWalls(
  plan: PlanOutline,
  findings: Columns,
  predictorsOf: PredictorsOf,
): LearnedWall[] {
  const { selected, answers } = respond(plan, findings);
  const members = responseClasses(selected, answers).flatMap((one) => one.members);
  return onceEach(members).flatMap(({ unit, cluster, weight, softened }) => {
    const predictors = predictorsOf(unit);
    return predictors ? [{ ...predictors, building: cluster, weight, softened }] : [];
  });
}
