import { normalQuantile } from '../findings/quantiles.ts';
import { type Outcome, refused } from './types.ts';

/** What is wanted of an estimated share. */
export interface ProportionAim {
  /** Units of the frame. */
  readonly population: number;
  /** Half the width of the interval, a share: 0.05 for ±5 points. */
  readonly margin: number;
  readonly confidence: number;
  /** The share expected; 0.5 asks for the most openings. */
  readonly share: number;
}

export interface ProportionSize {
  readonly n: number;
  /** Before rounding up. */
  readonly unrounded: number;
}

export const isShare = (x: number): boolean => x > 0 && x < 1;

const asks: readonly [test: (aim: ProportionAim) => boolean, says: string][] = [
  [({ population }) => population >= 1, 'The population is empty: there is nothing to open.'],
  [({ margin }) => isShare(margin), 'The margin must lie between 0 and 100 %, such as 5 %.'],
  [
    ({ confidence }) => isShare(confidence),
    'The confidence must lie between 0 and 100 %, such as 95 %.',
  ],
  [
    ({ share }) => isShare(share),
    'The expected share must lie between 0 and 100 %; 50 % asks for the most.',
  ],
];

/** z of a two-sided interval; rounded so that every engine sizes alike. */
const zOf = (confidence: number): number =>
  Math.round(normalQuantile((1 + confidence) / 2) * 1e9) / 1e9;

/**
 * Openings that estimate a share within the margin: n = ⌈n0/(1 + (n0 − 1)/N)⌉, n0 = z²pq/e² not rounded (Cochran, *Sampling
 * Techniques*, 3rd ed. 1977, 4.2).
 */
export function proportionSize(aim: ProportionAim): Outcome<ProportionSize> {
  const says = asks.filter(([test]) => !test(aim)).map(([, sentence]) => sentence);
  if (says.length > 0) return refused(...says);
  const { population, margin, confidence, share } = aim;
  const z = zOf(confidence);
  const n0 = (z * z * share * (1 - share)) / (margin * margin);
  const unrounded = n0 / (1 + (n0 - 1) / population);
  return {
    ok: true,
    n: Math.min(population, Math.max(1, Math.ceil(unrounded - 1e-9))),
    unrounded,
    says: [],
  };
}

/** The margin that n openings buy: the same formula solved for e; 0 where all are opened. */
export function marginAt(
  n: number,
  { population, confidence, share }: Omit<ProportionAim, 'margin'>,
): number {
  if (n >= population) return 0;
  const n0 = (n * (population - 1)) / (population - n);
  return zOf(confidence) * Math.sqrt((share * (1 - share)) / n0);
}
