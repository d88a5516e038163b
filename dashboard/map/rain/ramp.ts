import { interpolateLab, piecewise } from 'd3';

/** The rain that takes the deepest shade, mm a year; wetter places take it too. */
export const deepestMm = 4000;

/** Where rain lies on the ramp, 0-1: the power spreads the dry end, where the lines are closer. */
const rampPosition = (mm: number): number =>
  (Math.min(Math.max(mm, 0), deepestMm) / deepestMm) ** 0.75;

/** Shade of a yearly rain, blended in CIELAB through the given colours so that equal steps look equal. */
export function rainShade(ramp: readonly string[], mm: number): string {
  return piecewise(interpolateLab, [...ramp])(rampPosition(mm));
}
