import { mercatorX, mercatorY } from './mercator.ts';
import type { NearestRequest } from './messages.ts';
import type { PlacedBuildings } from './portfolio.ts';

/** Ordinals of the buildings within the box, nearest to the centre on the map first, then by ordinal. */
export function nearestBuildings(
  buildings: PlacedBuildings,
  { within, longitude, latitude, atMost }: NearestRequest,
): Uint32Array {
  const [left, right] = [mercatorX(within.west), mercatorX(within.east)];
  const [top, bottom] = [mercatorY(within.north), mercatorY(within.south)];
  const [x, y] = [mercatorX(longitude), mercatorY(latitude)];
  const isInside = (i: number) =>
    buildings.x[i]! >= left &&
    buildings.x[i]! <= right &&
    buildings.y[i]! >= top &&
    buildings.y[i]! <= bottom;
  const distance = (i: number) => Math.hypot(buildings.x[i]! - x, buildings.y[i]! - y);
  return Uint32Array.from(buildings.ordinal.keys())
    .filter(isInside)
    .sort((i, j) => distance(i) - distance(j) || buildings.ordinal[i]! - buildings.ordinal[j]!)
    .slice(0, atMost)
    .map((i) => buildings.ordinal[i]!);
}
