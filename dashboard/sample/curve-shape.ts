import { line, max, scaleLinear } from 'd3';
import type { CurvePoint } from '../../analysis/sample/size.ts';

/** The box in which the curve is drawn, in its own pixels. */
export const curveBox = {
  width: 460,
  height: 250,
  left: 46,
  right: 14,
  top: 16,
  bottom: 42,
} as const;

interface Tick {
  readonly at: number;
  readonly word: string;
}

export interface CurveShape {
  readonly path: string;
  readonly x: readonly Tick[];
  readonly y: readonly Tick[];
  /** The chosen n on the curve; null where it lies outside. */
  readonly chosen: { readonly x: number; readonly y: number } | null;
  /** Place of the budget's n; null without one or outside. */
  readonly budget: number | null;
}

/** How far the axis of openings reaches: past the chosen n and past what the budget buys, never past the population. */
export const reachOf = (population: number, chosen: number, budget: number | null): number =>
  Math.min(population, Math.max(20, Math.ceil(1.6 * Math.max(chosen, budget ?? 0))));

/** The tallest share on the axis: a margin over half of all is no news, a chance may reach 1. */
export const tallestOf = { proportion: 0.5, discovery: 1 } as const;

interface Marks {
  readonly chosen: CurvePoint | null;
  /** Openings that the budget buys. */
  readonly budget: number | null;
  readonly tallest: number;
}

/** Turns the points into a path and ticks; shares are written in percent. What lies outside the axes is left out. */
export function curveShape(
  points: readonly CurvePoint[],
  { chosen, budget, tallest }: Marks,
): CurveShape {
  const { width, height, left, right, top, bottom } = curveBox;
  const reach = max(points, ({ n }) => n) ?? 1;
  const x = scaleLinear([0, reach], [left, width - right]);
  const y = scaleLinear([0, tallest], [height - bottom, top]);
  const inside = ({ n, buys }: CurvePoint) => n <= reach && buys <= tallest;
  const path = line<CurvePoint>(
    ({ n }) => x(n),
    ({ buys }) => y(buys),
  );
  const whole = x.ticks(6).filter(Number.isInteger);
  return {
    path: path(points.filter(inside)) ?? '',
    x: whole.map((n) => ({ at: x(n), word: n.toLocaleString('en-US') })),
    y: y.ticks(5).map((share) => ({ at: y(share), word: String(Math.round(share * 100)) })),
    chosen: chosen && inside(chosen) ? { x: x(chosen.n), y: y(chosen.buys) } : null,
    budget: budget !== null && budget <= reach ? x(budget) : null,
  };
}
