import { shortestRun } from './longitudes.ts';

/** Degrees, west ≤ east and south ≤ north. */
export interface Bounds {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

export const hasPlace = (longitude: number, latitude: number): boolean =>
  Number.isFinite(longitude) && Number.isFinite(latitude);

/** Buildings to look at, by place in a list: those of the list, or all. */
const among = (all: ArrayLike<number>, ordinals: Int32Array | undefined) =>
  ordinals
    ? { n: ordinals.length, at: (i: number) => ordinals[i]! }
    : { n: all.length, at: (i: number) => i };

/**
 * The narrowest box around places; null when there are none. Its east lies beyond 180 where the box crosses that meridian,
 * and its west is always in −180 … 180.
 * @param longitude degrees −180 … 180, by ordinal; NaN is no record
 * @param latitude degrees, by ordinal; NaN is no record
 * @param ordinals those to look at; all where left out
 */
export function boundsOf(
  longitude: Float64Array,
  latitude: Float64Array,
  ordinals?: Int32Array,
): Bounds | null {
  const { n, at } = among(longitude, ordinals);
  let [south, north] = [Infinity, -Infinity];
  const placed = new Float64Array(n);
  let count = 0;
  for (let i = 0; i < n; i++) {
    const [lon, lat] = [longitude[at(i)]!, latitude[at(i)]!];
    if (!hasPlace(lon, lat)) continue;
    placed[count++] = lon;
    if (lat < south) south = lat;
    if (lat > north) north = lat;
  }
  const run = shortestRun(placed.subarray(0, count));
  return run && { ...run, south, north };
}
