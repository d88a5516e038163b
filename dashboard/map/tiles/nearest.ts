import { quickselect } from 'd3';
import type { Entries } from './entries.ts';
import { mercatorX, mercatorY } from './mercator.ts';
import type { NearestRequest } from './messages.ts';

/** Ordinals of the shown buildings within the box, nearest to the centre on the map first, then by ordinal. */
export function nearestBuildings(
  { placed, shown }: Entries,
  { within, longitude, latitude, atMost }: NearestRequest,
): Uint32Array {
  const { ordinal, x, y } = placed;
  const [left, right] = [mercatorX(within.west), mercatorX(within.east)];
  const [top, bottom] = [mercatorY(within.north), mercatorY(within.south)];
  const [centreX, centreY] = [mercatorX(longitude), mercatorY(latitude)];
  const inside: number[] = [];
  for (let i = 0; i < ordinal.length; i++) {
    const isInside = x[i]! >= left && x[i]! <= right && y[i]! >= top && y[i]! <= bottom;
    if (isInside && shown.mask?.[i] !== 0) inside.push(i);
  }
  const distance = (i: number) => Math.hypot(x[i]! - centreX, y[i]! - centreY);
  const byDistance = (i: number, j: number) =>
    distance(i) - distance(j) || ordinal[i]! - ordinal[j]!;
  // Only the nearest few are sorted: all of a million would take seconds.
  if (inside.length > atMost) {
    const compare = (i: unknown, j: unknown) => byDistance(i as number, j as number);
    quickselect(inside, atMost - 1, 0, inside.length - 1, compare);
  }
  const nearest = inside.slice(0, atMost).sort(byDistance);
  return Uint32Array.from(nearest, (i) => ordinal[i]!);
}
