import { quickselect } from 'd3';
import { turnedTo } from '../../../analysis/place/longitudes.ts';
import type { Entries } from './entries.ts';
import { mercatorX, mercatorY, worldSize } from './mercator.ts';
import type { NearestRequest } from './messages.ts';

/**
 * Ordinals of the shown buildings within the box, nearest to the centre on the map first, then by ordinal. The box may
 * cross 180°: x is counted from its west around the world, whose 2^32 units are those of the bit operators.
 */
export function nearestBuildings(
  { placed, shown }: Entries,
  { within, longitude, latitude, atMost }: NearestRequest,
): Uint32Array {
  const { ordinal, x, y } = placed;
  const left = mercatorX(turnedTo(0, within.west));
  const width = ((within.east - within.west) / 360) * worldSize;
  const [top, bottom] = [mercatorY(within.north), mercatorY(within.south)];
  const [centreX, centreY] = [mercatorX(turnedTo(0, longitude)), mercatorY(latitude)];
  const inside: number[] = [];
  for (let i = 0; i < ordinal.length; i++) {
    const isInside = (x[i]! - left) >>> 0 <= width && y[i]! >= top && y[i]! <= bottom;
    if (isInside && shown.mask?.[i] !== 0) inside.push(i);
  }
  const distance = (i: number) => Math.hypot((x[i]! - centreX) | 0, y[i]! - centreY);
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
