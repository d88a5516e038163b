import { rainConstant } from './constants.ts';
import { normalBelow } from './normal.ts';

const z = rainConstant('interval_z');

const round = (x: number, step: number): number => Math.round(x * step) / step;

/** 80 % interval of the rain, mm a year. */
export interface RainInterval {
  readonly low: number;
  readonly high: number;
}

/**
 * 80 % interval of a rain whose logarithm is normal about ln `mm` with standard deviation `s`: mm · exp(∓ 1.2816 s),
 * rounded to 1e-4 mm. NaN where `mm` is.
 */
export const rainInterval = (mm: number, s: number): RainInterval => ({
  low: round(mm * Math.exp(-z * s), 1e4),
  high: round(mm * Math.exp(z * s), 1e4),
});

/**
 * Probability that the rain exceeds `thresholdMm`: Φ((ln mm − ln T) / s), rounded to 1e-6. Without spread (s = 0) it is
 * 1 above the threshold and 0 at it or below. NaN where `mm` is.
 */
export function chanceOver(mm: number, s: number, thresholdMm: number): number {
  if (Number.isNaN(mm)) return Number.NaN;
  if (s === 0) return mm > thresholdMm ? 1 : 0;
  return round(normalBelow(Math.log(mm / thresholdMm) / s), 1e6);
}
