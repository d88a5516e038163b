import { counted, type Outcome, refused } from './types.ts';

/** How openings are shared out over strata. */
export type Allocation =
  | { readonly kind: 'proportional' }
  /** Share expected to be decayed, by stratum, from findings or the user; 0.5 where it names none. */
  | { readonly kind: 'neyman'; readonly shares: Readonly<Record<string, number>> }
  | { readonly kind: 'by hand'; readonly openings: Readonly<Record<string, number>> };

export interface StratumSize {
  readonly stratum: string;
  readonly units: number;
}

type Sizes = Outcome<{ sizes: readonly number[] }>;

/** Neyman's shares before rounding: n N_h S_h / Σ N S, S_h = √(P_h(1 − P_h)). */
export function neymanShares(
  n: number,
  strata: readonly StratumSize[],
  shares: Readonly<Record<string, number>>,
): number[] {
  const pull = strata.map(({ stratum, units }) => {
    const p = shares[stratum] ?? 0.5;
    return units * Math.sqrt(p * (1 - p));
  });
  const total = pull.reduce((sum, x) => sum + x, 0);
  return pull.map((x) => (n * x) / total);
}

/** Whole numbers that add up to the total: the largest remainders are rounded up, of equal ones the earlier. */
function rounded(shares: readonly number[], total: number): number[] {
  const whole = shares.map((x) => Math.floor(x + 1e-9));
  const left = total - whole.reduce((sum, x) => sum + x, 0);
  const order = shares
    .map((x, h) => ({ h, rest: Math.round((x - whole[h]!) * 1e9) }))
    .sort((a, b) => b.rest - a.rest || a.h - b.h);
  for (const { h } of order.slice(0, left)) whole[h]! += 1;
  return whole;
}

interface Bounds {
  readonly least: number;
  readonly most: number;
}

/**
 * Shares in proportion to the pull, but none under its least or over its most: those bound are set, and the rest is shared
 * anew. Where both kinds are bound, only those whose sum of excess is the greater are set, so that none is set wrongly.
 */
function boundedShares(n: number, pull: readonly number[], bounds: readonly Bounds[]): number[] {
  const set: (number | null)[] = pull.map(() => null);
  for (;;) {
    const open = pull.map((_, h) => h).filter((h) => set[h] === null);
    const left = n - set.reduce((sum: number, x) => sum + (x ?? 0), 0);
    const total = open.reduce((sum, h) => sum + pull[h]!, 0);
    const share = (h: number) => (total > 0 ? (left * pull[h]!) / total : left / open.length);
    const under = open.filter((h) => share(h) < bounds[h]!.least);
    const over = open.filter((h) => share(h) > bounds[h]!.most);
    if (under.length + over.length === 0) return pull.map((_, h) => set[h] ?? share(h));
    const short = under.reduce((sum, h) => sum + bounds[h]!.least - share(h), 0);
    const excess = over.reduce((sum, h) => sum + share(h) - bounds[h]!.most, 0);
    if (excess >= short) for (const h of over) set[h] = bounds[h]!.most;
    else for (const h of under) set[h] = bounds[h]!.least;
  }
}

/** At least two openings a stratum where there are enough, else one: a stratum with one has no spread of its own. */
function byPull(n: number, strata: readonly StratumSize[], pull: readonly number[]): Sizes {
  if (n < strata.length) {
    return refused(
      `${counted(n, 'opening')} cannot reach ${strata.length} strata: take fewer strata, or more openings.`,
    );
  }
  const twoEach = strata.reduce((sum, { units }) => sum + Math.min(2, units), 0);
  const least = twoEach <= n ? 2 : 1;
  const bounds = strata.map(({ units }) => ({ least: Math.min(least, units), most: units }));
  const sizes = rounded(boundedShares(n, pull, bounds), n);
  const says =
    least === 1
      ? [
          `With ${counted(n, 'opening')} for ${strata.length} strata some have a single one: their spread is borrowed from the others.`,
        ]
      : [];
  return { ok: true, sizes, says };
}

function neyman(
  n: number,
  strata: readonly StratumSize[],
  shares: Readonly<Record<string, number>>,
): Sizes {
  const wrong = Object.entries(shares).find(([, p]) => !(p >= 0 && p <= 1));
  if (wrong)
    return refused(`The expected share of stratum ${wrong[0]} must lie between 0 and 100 %.`);
  const pull = neymanShares(1, strata, shares).map((x) => (Number.isNaN(x) ? 0 : x));
  const flat = pull.every((x) => x === 0);
  const result = byPull(n, strata, flat ? strata.map(({ units }) => units) : pull);
  if (!result.ok) return result;
  const blank = strata.filter(({ stratum }) => shares[stratum] === undefined);
  const says = [...result.says];
  if (flat)
    says.push(
      'With every expected share at 0 or 100 % there is no spread to go by: the openings are shared out in proportion.',
    );
  if (blank.length > 0)
    says.push(
      `No expected share given, 50 % taken: ${blank.map(({ stratum }) => stratum).join('; ')}.`,
    );
  return { ...result, says };
}

function byHand(strata: readonly StratumSize[], openings: Readonly<Record<string, number>>): Sizes {
  const bad = Object.entries(openings).find(([, n]) => !Number.isInteger(n) || n < 0);
  if (bad)
    return refused(`Openings of stratum ${bad[0]}: ${bad[1]} is not a whole number of 0 or more.`);
  const names = new Set(strata.map(({ stratum }) => stratum));
  const unknown = Object.keys(openings).filter((name) => !names.has(name));
  if (unknown.length > 0) return refused(`There is no stratum named ${unknown.join('; ')}.`);
  const sizes = strata.map(({ stratum, units }) => Math.min(units, openings[stratum] ?? 0));
  const says = strata.flatMap(({ stratum, units }, h) => {
    if (sizes[h] === 0)
      return [`Stratum ${stratum} has no opening: the sample says nothing about it.`];
    const asked = openings[stratum]!;
    return asked > units
      ? [`Stratum ${stratum} has ${units} units, ${asked} openings were asked: all are selected.`]
      : [];
  });
  return sizes.some((n) => n > 0)
    ? { ok: true, sizes, says }
    : refused('No stratum has an opening: give at least one.');
}

/**
 * Openings of each stratum. `n` is 1 or more and at most the units of all strata; by hand the given numbers stand and n is
 * not asked.
 */
export function allocate(n: number, strata: readonly StratumSize[], allocation: Allocation): Sizes {
  if (allocation.kind === 'by hand') return byHand(strata, allocation.openings);
  if (allocation.kind === 'neyman') return neyman(n, strata, allocation.shares);
  return byPull(
    n,
    strata,
    strata.map(({ units }) => units),
  );
}
