import { drawer } from './draw.ts';
import { prepare } from './prepare.ts';
import { seeded } from './random.ts';
import type { SelectionRequest } from './request.ts';
import type { Selection } from './select.ts';
import { type Outcome, type Population, refused, type SelectedUnit } from './types.ts';

/** Fewer redraws than this leave a selection without chances. */
const leastRedraws = 10_000;

/** A chance that rests on fewer draws than this is off by more than a tenth as a rule: 1/√100. */
const leastCount = 100;

export interface EstimatedChances {
  readonly redraws: number;
  /** By ordinal of the population: share of the redraws that took the unit; 0 for those left out or taken in any case. */
  readonly chances: Float64Array;
}

/** The stream of the generator that redraws: the one after the sample's own. */
const redrawStream = 1;

/**
 * Draws the request again and again and counts how often each unit is taken: the chances of a selection that keeps a
 * minimum distance, which no formula gives.
 */
export function estimateChances(
  population: Population,
  request: SelectionRequest,
  redraws = leastRedraws,
): Outcome<EstimatedChances> {
  if (!(Number.isSafeInteger(redraws) && redraws >= leastRedraws))
    return refused(
      `Chances are estimated by ${leastRedraws.toLocaleString('en-US')} redraws or more.`,
    );
  const prepared = prepare(population, request);
  if (!prepared.ok) return prepared;
  const draw = drawer(prepared.ready);
  const random = seeded(request.seed, redrawStream);
  const counts = new Float64Array(population.n);
  for (let k = 0; k < redraws; k += 1)
    for (const { unit } of draw(random)) counts[unit] = counts[unit]! + 1;
  return { ok: true, redraws, chances: counts.map((count) => count / redraws), says: [] };
}

const isChance = ({ certainty, replacementOrder }: SelectedUnit): boolean =>
  !certainty && replacementOrder === null;

/**
 * The selection with chances estimated by redrawing. It becomes a probability sample only if every unit left to chance was
 * taken in some redraw.
 */
export function withEstimatedChances(
  selection: Selection,
  { redraws, chances }: EstimatedChances,
): { selection: Selection; says: string[] } {
  const of = Float64Array.from(selection.chances.units, (unit) => chances[unit]!);
  const out = of.filter((chance) => chance === 0).length;
  const units = selection.units.map((one) => {
    const probability = chances[one.unit]!;
    return isChance(one) && probability > 0
      ? { ...one, probability, weight: 1 / probability }
      : one;
  });
  const thin = units.filter((one) => isChance(one) && !(one.probability * redraws >= leastCount));
  const says = [`Chances estimated by ${redraws.toLocaleString('en-US')} redraws.`];
  if (out > 0)
    says.push(
      `${out} units of the frame were taken in no redraw: still not a probability sample. Redraw more often, or shorten the minimum distance.`,
    );
  if (thin.length > 0)
    says.push(
      `The chances of ${thin.length} selected units rest on fewer than ${leastCount} redraws each and may be off by a tenth or more: redraw more often.`,
    );
  const chancesNow = { units: selection.chances.units, of };
  return {
    selection: { ...selection, units, chances: chancesNow, probabilitySample: out === 0 },
    says,
  };
}
