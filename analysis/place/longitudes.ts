/** Degrees eastward from one longitude to another, 0 to below 360. */
export function eastward(from: number, to: number): number {
  const degrees = (to - from) % 360;
  return degrees < 0 ? degrees + 360 : degrees;
}

/** The same meridian, at most half a turn from the one in the middle: 190 is −170 around 0, −170 is 190 around 150. */
export function turnedTo(middle: number, longitude: number): number {
  const off = longitude - middle;
  return longitude - 360 * Math.round(off / 360);
}

/** Longitudes from west eastward, west ≤ east; degrees, beyond 180 where it crosses that meridian. */
interface Run {
  readonly west: number;
  readonly east: number;
}

/**
 * The shortest run that holds longitudes given as −180 … 180: the circle without its widest gap; of gaps as wide the one
 * around 180° is left out. Null where there are none.
 */
export function shortestRun(longitudes: Float64Array): Run | null {
  let [west, east] = [Infinity, -Infinity];
  for (const x of longitudes) {
    if (x < west) west = x;
    if (x > east) east = x;
  }
  if (!(west <= east)) return null;
  // A gap of half the circle has no wider beside it: places of one continent need no sorting.
  return east - west <= 180 ? { west, east } : withoutWidestGap(longitudes.toSorted());
}

function withoutWidestGap(sorted: Float64Array): Run {
  const last = sorted.length - 1;
  let [west, east] = [sorted[0]!, sorted[last]!];
  let widest = west + 360 - east;
  for (let i = 0; i < last; i++) {
    const gap = sorted[i + 1]! - sorted[i]!;
    if (gap <= widest) continue;
    widest = gap;
    [west, east] = [sorted[i + 1]!, sorted[i]! + 360];
  }
  return { west, east };
}
