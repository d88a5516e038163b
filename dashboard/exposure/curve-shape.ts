import { area, curveStepBefore, line, scaleLinear } from 'd3';
import type { Curve } from '../../analysis/exposure/curve.ts';
import { digits } from '../parts/format.ts';

/** The box of the curve, px of its own: narrow screens get a smaller one, so that its words stay readable. */
export const curveBoxes = {
  wide: { width: 860, height: 300, left: 100, right: 16, top: 14, bottom: 40 },
  narrow: { width: 362, height: 260, left: 62, right: 8, top: 14, bottom: 40 },
} as const;
export type CurveBox = (typeof curveBoxes)[keyof typeof curveBoxes];

/** Entries of the curve between two that are drawn: a quarter of an index. */
const drawnEvery = 25;

/** A curve as paths in its box, with its ticks. */
export interface CurveShape {
  readonly band: string;
  readonly mean: string;
  readonly x: readonly { readonly at: number; readonly word: string }[];
  readonly y: readonly { readonly at: number; readonly word: string }[];
  readonly across: (index: number) => number;
  readonly upward: (amount: number) => number;
  /** The index at a place in the box, 0-100 in halves. */
  readonly indexAt: (x: number) => number;
}

/** Large amounts in few digits, for ticks alone: *2.5 mn*. */
const tickWord = (amount: number): string => {
  const [unit, word] = [
    [1e12, 'tn'],
    [1e9, 'bn'],
    [1e6, 'mn'],
  ].find(([least]) => amount >= Number(least)) ?? [1, ''];
  const scaled = amount / Number(unit);
  return `${digits(scaled, Number.isInteger(scaled) ? 0 : 1)}${word ? `\u00a0${word}` : ''}`;
};

export function curveShape(curve: Curve, of: 'value' | 'buildings', box: CurveBox): CurveShape {
  const [low, mean, high] = [curve.low[of], curve.mean[of], curve.high[of]];
  const x = scaleLinear([0, 100], [box.left, box.width - box.right]);
  const y = scaleLinear([0, Math.max(1, high[0]!)], [box.height - box.bottom, box.top]).nice(5);
  const steps = Array.from(
    { length: 1 + (mean.length - 1) / drawnEvery },
    (_, i) => i * drawnEvery,
  );
  // The amount at an index is that of all below it down to the next entry: steps fall before, not after.
  const across = (step: number) => x(step / 100);
  return {
    band:
      area<number>(
        across,
        (step) => y(low[step]!),
        (step) => y(high[step]!),
      ).curve(curveStepBefore)(steps) ?? '',
    mean: line<number>(across, (step) => y(mean[step]!)).curve(curveStepBefore)(steps) ?? '',
    x: x.ticks(10).map((index) => ({ at: x(index), word: String(index) })),
    y: y.ticks(5).map((amount) => ({ at: y(amount), word: tickWord(amount) })),
    across: x,
    upward: y,
    indexAt: (at) => Math.round(2 * Math.min(100, Math.max(0, x.invert(at)))) / 2,
  };
}
