import { chanceOfSeeing, type DiscoveryAim, decayedUnits } from './discovery.ts';
import { marginAt, type ProportionAim } from './proportion.ts';
import { type Outcome, refused } from './types.ts';

/** What n openings buy: a margin (a share), or a chance of seeing at least one. */
export interface CurvePoint {
  readonly n: number;
  readonly buys: number;
}

const pointsOfACurve = 160;

/** About 160 whole numbers from 1 to `most`, denser at the small end, where a curve bends. */
function sizesTo(most: number): number[] {
  const sizes = Array.from({ length: pointsOfACurve }, (_, i) => {
    const along = (i + 1) / pointsOfACurve;
    return Math.max(1, Math.round(most * along * along));
  });
  return [...new Set(sizes)];
}

/** n → margin, up to `most` openings. */
export const marginCurve = (
  aim: Omit<ProportionAim, 'margin'>,
  most = aim.population,
): CurvePoint[] =>
  sizesTo(Math.min(most, aim.population)).map((n) => ({ n, buys: marginAt(n, aim) }));

/** n → chance of seeing at least one, up to `most` openings. */
export function discoveryCurve(aim: DiscoveryAim, most = aim.population): CurvePoint[] {
  const decayed = decayedUnits(aim.population, aim.share);
  return sizesTo(Math.min(most, aim.population)).map((n) => ({
    n,
    buys: chanceOfSeeing(n, decayed, aim),
  }));
}

/** The user's own costs, in any one currency. None has a default. */
export interface OpeningCosts {
  readonly opening: number;
  /** Making good after it. */
  readonly repair: number;
  /** Lifts, scaffolding, mobilisation: once. */
  readonly access: number;
}

export const costOf = (n: number, { opening, repair, access }: OpeningCosts): number =>
  n > 0 ? n * (opening + repair) + access : 0;

export interface Affordable {
  readonly n: number;
  readonly cost: number;
}

/** Openings that a budget buys, at most the population. */
export function affordable(
  budget: number,
  costs: OpeningCosts,
  population: number,
): Outcome<Affordable> {
  if (![budget, ...Object.values(costs)].every((x) => Number.isFinite(x) && x >= 0))
    return refused('A budget and its costs must be numbers of 0 or more.');
  const each = costs.opening + costs.repair;
  if (each === 0) return refused('Give what an opening and its repair cost.');
  const n = Math.min(population, Math.floor((budget - costs.access) / each + 1e-9));
  if (n < 1)
    return refused(
      `The budget buys no opening: access and the first one cost ${costOf(1, costs)}.`,
    );
  return { ok: true, n, cost: costOf(n, costs), says: [] };
}
