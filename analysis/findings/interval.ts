import { betaQuantile } from './beta.ts';
import { seenAtMost } from './hypergeometric.ts';
import { studentQuantile } from './quantiles.ts';

/** Ends of a confidence interval of a share, 0 to 1. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** `seen` of `drawn` opened units, of `size` in all, had the attribute and showed it. */
export interface Count {
  readonly size: number;
  readonly drawn: number;
  readonly seen: number;
}

/** The first whole number from `from` to `to` at which `holds`, which never turns false again; `to` where none before. */
function firstFrom(from: number, to: number, holds: (n: number) => boolean): number {
  let [low, high] = [from, to];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/**
 * Exact interval of the share of a finite population of which some were drawn at random: every number of marked units
 * that would not make what was seen rarer than half of 1 − confidence on either side (Clopper and Pearson's rule for the
 * hypergeometric law). An opening on a marked unit shows it with chance `detection`.
 */
export function exactInterval(
  { size, drawn, seen }: Count,
  confidence: number,
  detection = 1,
): Interval {
  const tail = (1 - confidence) / 2;
  const atMost = (x: number, marked: number): number =>
    seenAtMost(x, { size, marked, drawn }, detection);
  const most = detection === 1 ? size - (drawn - seen) : size;
  const low = firstFrom(seen, most, (marked) => 1 - atMost(seen - 1, marked) > tail);
  const firstTooMany = firstFrom(seen, most + 1, (marked) => !(atMost(seen, marked) > tail));
  return { low: low / size, high: Math.max(low, firstTooMany - 1) / size };
}

/** Interval of Clopper and Pearson (1934); x and n need not be whole. */
export const clopperPearson = (x: number, n: number, confidence: number): Interval => ({
  low: x <= 0 ? 0 : betaQuantile((1 - confidence) / 2, x, n - x + 1),
  high: x >= n ? 1 : betaQuantile((1 + confidence) / 2, x + 1, n - x),
});

/** A share estimated from a design, and what its interval needs. */
export interface DesignShare {
  readonly share: number;
  readonly variance: number;
  /** Units opened. */
  readonly n: number;
  readonly degreesOfFreedom: number;
  /** n as it counts with weights that know nothing of the attribute: (Σ w)² / Σ w² (Kish, *Survey Sampling*, 1965). */
  readonly weightedN: number;
}

/**
 * How many openings of a simple random sample would tell as much: p (1 − p) / v, with the t-quantiles' correction for few
 * degrees of freedom, never more than the openings there were. Where all openings are alike the variance says nothing,
 * and the weights alone decide.
 */
export function effectiveSize(
  { share, variance, n, degreesOfFreedom, weightedN }: DesignShare,
  confidence: number,
): number {
  if (share <= 0 || share >= 1) return Math.min(n, weightedN);
  const upper = (1 + confidence) / 2;
  const correction =
    (studentQuantile(upper, Math.max(1, n - 1)) / studentQuantile(upper, degreesOfFreedom)) ** 2;
  return Math.min(n, ((share * (1 - share)) / variance) * correction);
}

/** Interval of Korn and Graubard (*Survey Methodology* 24, 1998): Clopper and Pearson's with the effective size. */
export function kornGraubard(of: DesignShare, confidence: number): Interval {
  const n = effectiveSize(of, confidence);
  return clopperPearson(n * of.share, n, confidence);
}
