import { isShare } from './proportion.ts';
import { type Outcome, refused } from './types.ts';

/** What is wanted of a search: to see at least one, if this share or more of the units is decayed. */
export interface DiscoveryAim {
  /** Units of the frame. */
  readonly population: number;
  readonly share: number;
  readonly confidence: number;
  /** Chance that an opening on a decayed unit sees the decay, above 0 and at most 1. */
  readonly detection: number;
}

export interface DiscoverySize {
  readonly n: number;
  /** Decayed units that the share comes to. */
  readonly decayed: number;
  /** Chance of seeing at least one, at n. */
  readonly chance: number;
}

/** Whole power, by squaring: the same digits everywhere, as Math.pow does not promise. */
function power(base: number, exponent: number): number {
  let [result, square, left] = [1, base, exponent];
  while (left > 0) {
    if (left % 2 === 1) result *= square;
    square *= square;
    left = Math.floor(left / 2);
  }
  return result;
}

/** Terms below this share of the greatest change no digit. */
const negligible = 1e-19;

/**
 * Chance that at least one of the `decayed` units is seen when n of the population are opened, each decayed one seen with
 * chance `detection`: 1 − Σ_x P(x decayed opened)(1 − detection)^x over the hypergeometric distribution. Its terms are
 * built from the most likely one outward by their ratios: + − × ÷ only, so that page and command line size alike.
 */
export function chanceOfSeeing(
  n: number,
  decayed: number,
  { population, detection }: Pick<DiscoveryAim, 'population' | 'detection'>,
): number {
  const least = Math.max(0, n - (population - decayed));
  const most = Math.min(n, decayed);
  const likeliest = Math.min(
    most,
    Math.max(least, Math.floor(((n + 1) * (decayed + 1)) / (population + 2))),
  );
  const miss = 1 - detection;
  /** Ratio of the term of x + 1 to that of x. */
  const ratio = (x: number) =>
    ((decayed - x) * (n - x)) / ((x + 1) * (population - decayed - n + x + 1));
  let all = 1;
  let missed = power(miss, likeliest);
  for (let x = likeliest, term = 1; x < most && term > negligible; x += 1) {
    term *= ratio(x);
    all += term;
    missed += term * power(miss, x + 1);
  }
  for (
    let x = likeliest, term = 1;
    x > least && term > negligible * power(miss, likeliest);
    x -= 1
  ) {
    term /= ratio(x - 1);
    all += term;
    missed += term * power(miss, x - 1);
  }
  return 1 - missed / all;
}

/** Decayed units that a share comes to; shares such as 0.07 × 100 that end a hair above a whole number count as it. */
export const decayedUnits = (population: number, share: number): number =>
  Math.ceil(population * share - 1e-9);

const asks: readonly [test: (aim: DiscoveryAim) => boolean, says: string][] = [
  [({ population }) => population >= 1, 'The population is empty: there is nothing to open.'],
  [
    ({ share }) => share > 0 && share <= 1,
    'The share to be found must lie above 0 and at most at 100 %.',
  ],
  [
    ({ confidence }) => isShare(confidence),
    'The confidence must lie between 0 and 100 %, such as 95 %.',
  ],
  [
    ({ detection }) => detection > 0 && detection <= 1,
    'The chance that an opening sees decay must lie above 0 and at most at 1.',
  ],
];

const percent = (x: number): string => `${Math.floor(x * 1000 + 1e-6) / 10} %`;

const reaches = (chance: number, confidence: number): boolean => chance >= confidence - 1e-12;

/** Smallest n that reaches the confidence; the chance never falls with n. */
function smallest(decayed: number, aim: DiscoveryAim): number {
  let [low, high] = [1, aim.population];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (reaches(chanceOfSeeing(middle, decayed, aim), aim.confidence)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Openings with which at least one decayed unit is seen with the confidence, if the share or more is decayed. */
export function discoverySize(aim: DiscoveryAim): Outcome<DiscoverySize> {
  const says = asks.filter(([test]) => !test(aim)).map(([, sentence]) => sentence);
  if (says.length > 0) return refused(...says);
  const { population, confidence } = aim;
  const decayed = decayedUnits(population, aim.share);
  const best = chanceOfSeeing(population, decayed, aim);
  if (!reaches(best, confidence)) {
    return refused(
      `A confidence of ${percent(confidence)} cannot be reached: with ${decayed} decayed of ${population} and openings that see decay with a chance of ${aim.detection}, opening all of them comes to ${percent(best)}.`,
    );
  }
  const n = smallest(decayed, aim);
  return { ok: true, n, decayed, chance: chanceOfSeeing(n, decayed, aim), says: [] };
}
