import { max, scaleLinear } from 'd3';
import { tiers } from '../../analysis/session-types.ts';
import { perTier, sum } from '../../analysis/sift/tally-codes.ts';
import type { HistogramTally } from '../../analysis/sift/tally-histogram.ts';
import { digits } from '../parts/format.ts';
import { type Box, fieldOf, px, rectPath, type Tick } from './box.ts';

export interface HistogramShape {
  /** One path a tier, in the order of `tiers`; tiers without a building have ''. */
  readonly bars: readonly string[];
  /** The whole portfolio, drawn to the same total as what passes. */
  readonly outline: string;
  readonly x: readonly Tick[];
  readonly y: readonly Tick[];
}

/** Paths and ticks of the histogram: bars stacked by tier, First look at the foot. */
export function histogramShape({ edges, kept, whole }: HistogramTally, box: Box): HistogramShape {
  const bins = edges.length - 1;
  const field = fieldOf(box);
  const foot = box.top + field.height;
  const passing = Array.from(whole, (_, bin) => sum(binOf(kept, bin)));
  const ratio = sum(whole) > 0 ? sum(passing) / sum(whole) : 0;
  const tallest = Math.max(max(passing) ?? 0, (max(whole) ?? 0) * ratio, 1);
  const y = scaleLinear([0, tallest], [0, field.height]);
  const x = scaleLinear([0, bins], [box.left, box.left + field.width]);
  const gap = field.width / bins > 5 ? 1 : 0;
  const bars = tiers.map((_, tier) =>
    passing
      .map((_, bin) => {
        const counts = binOf(kept, bin);
        const height = y(counts[tier]!);
        const under = y(sum(counts.subarray(0, tier)));
        if (height === 0) return '';
        return rectPath(x(bin), foot - under - height, x(1) - x(0) - gap, height);
      })
      .join(''),
  );
  return {
    bars,
    outline: stepped(
      Array.from(whole, (n) => y(n * ratio)),
      x,
      foot,
    ),
    x: xTicks(edges, x),
    y: y
      .ticks(3)
      .filter(Number.isInteger)
      .map((n) => ({ at: px(foot - y(n)), word: digits(n, 0) })),
  };
}

const binOf = (kept: Uint32Array, bin: number): Uint32Array =>
  kept.subarray(bin * perTier, (bin + 1) * perTier);

/** The outline of bars without the lines between them. */
function stepped(heights: readonly number[], x: (bin: number) => number, foot: number): string {
  const steps = heights.map((height, bin) => `V${px(foot - height)}H${px(x(bin + 1))}`);
  return `M${px(x(0))} ${px(foot)}${steps.join('')}V${px(foot)}`;
}

/** Every tenth of an index from 0 to 100, or every fifth part of other ranges. */
function xTicks(edges: ArrayLike<number>, x: (bin: number) => number): Tick[] {
  const bins = edges.length - 1;
  const values = scaleLinear([edges[0]!, edges[bins]!], [0, bins]);
  return values.ticks(5).map((value) => ({ at: px(x(values(value))), word: digits(value, 0) }));
}
