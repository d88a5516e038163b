import { haversineKm, parallelsKm, reachDegrees } from './great-circle.ts';
import type { RainGrid } from './grid.ts';

/** A node and its great-circle distance, km rounded to 1e-6; node −1 is none. */
export interface Nearest {
  readonly node: number;
  readonly km: number;
}

/** Bounds are widened by a metre: a node on the edge must be looked at in every engine, and judged by its rounded distance. */
const slackKm = 1e-3;

export const round6 = (x: number): number => Math.round(x * 1e6) / 1e6;

/** Nearer wins; at equal rounded distance the lower node, so that last bits of sin and cos decide nothing. */
export const better = (a: Nearest, b: Nearest): Nearest =>
  b.km < a.km || (b.km === a.km && b.node < a.node) ? b : a;

/** First node with data from `column` on, in steps of `by`, up to and with `end`; −1 if there is none. */
function firstValid(grid: RainGrid, row: number, column: number, by: 1 | -1, end: number): number {
  const base = row * grid.width;
  for (let c = column; by * c <= by * end; c += by) {
    if (!Number.isNaN(grid.mm[base + c]!)) return base + c;
  }
  return -1;
}

/**
 * The nearer of the first valid nodes to the left and to the right of fractional column `fx` in one row. Along a row the
 * distance only grows, so nothing behind them can win. `half` is how many columns either side are worth a look.
 */
function nearestInRow(grid: RainGrid, row: number, fx: number, half: number, to: Point): Nearest {
  const first = Math.max(0, Math.ceil(fx - half));
  const last = Math.min(grid.width - 1, Math.floor(fx + half));
  const left = firstValid(grid, row, Math.min(Math.floor(fx), last), -1, first);
  const right = firstValid(grid, row, Math.max(Math.floor(fx) + 1, first), 1, last);
  return better(measured(grid, left, to), measured(grid, right, to));
}

/** Degrees. */
export interface Point {
  readonly longitude: number;
  readonly latitude: number;
}

export const none: Nearest = { node: -1, km: Number.POSITIVE_INFINITY };

function measured(grid: RainGrid, node: number, to: Point): Nearest {
  if (node < 0) return none;
  const longitude = grid.west + (node % grid.width) * grid.stepX;
  const latitude = grid.north + Math.floor(node / grid.width) * grid.stepY;
  return { node, km: round6(haversineKm(to.longitude, to.latitude, longitude, latitude)) };
}

/** Rows by distance from the point's own, nearest first: k = 0, 1, 2 … alternates up and down. */
const rowAt = (start: number, k: number): number =>
  k % 2 === 0 ? start + k / 2 : start - (k + 1) / 2;

/**
 * The nearest node with data within `limitKm` of a point (degrees), on any grid, across the date line too.
 * Latitudes beyond the poles and NaN find none.
 */
export function nearestNode(grid: RainGrid, to: Point, limitKm: number): Nearest {
  if (!(Math.abs(to.latitude) <= 90)) return none;
  const start = Math.round((to.latitude - grid.north) / grid.stepY);
  const fx = (to.longitude - grid.west) / grid.stepX;
  const turn = 360 / grid.stepX;
  const span = parallelsKm(0, Math.abs(grid.stepY));
  const rows = 2 * Math.ceil(limitKm / span) + 3;
  let best = none;
  for (let k = 0; k < rows; k++) {
    const row = rowAt(start, k);
    if (row < 0 || row >= grid.height) continue;
    const within = Math.min(best.km, limitKm) + slackKm;
    const degrees = reachDegrees(to.latitude, grid.north + row * grid.stepY, within);
    if (Number.isNaN(degrees)) continue;
    const half = degrees / grid.stepX;
    for (const x of [fx - turn, fx, fx + turn]) {
      best = better(best, nearestInRow(grid, row, x, half, to));
    }
  }
  return best.km <= limitKm ? best : none;
}
