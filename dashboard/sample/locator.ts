import { eastNorth, planeKm, placesOf as spheric } from '../../analysis/sample/plane.ts';

export interface Place {
  /** The building. */
  readonly id: string;
  readonly latitude: number;
  readonly longitude: number;
}

interface Dot {
  readonly id: string;
  readonly x: number;
  readonly y: number;
}

/** The sampled buildings on paper: north is up, one scale in both directions. */
export interface Locator {
  readonly dots: readonly Dot[];
  readonly bar: { readonly width: number; readonly length: number };
}

export const locatorBox = { width: 190, height: 150, margin: 10, foot: 22 } as const;

/** Less than this is not spread over the whole map: one building, or some at one address; km or miles. */
const leastSpan = 0.2;

/** Buildings on one map: the one looked for, and those nearest to it. */
const onOneMap = 6;

const numbers = (places: readonly Place[], of: (place: Place) => number) =>
  Float64Array.from(places, of);
const latitudes = (places: readonly Place[]) => numbers(places, ({ latitude }) => latitude);
const longitudes = (places: readonly Place[]) => numbers(places, ({ longitude }) => longitude);

/** The building at this place in the list first, then its nearest neighbours. */
export function around(places: readonly Place[], at: number): Place[] {
  const on = spheric(latitudes(places), longitudes(places));
  const far = places.map((_, i) => (i === at ? -1 : planeKm(on, at, i)));
  return places
    .map((place, i) => ({ place, far: far[i]! }))
    .sort((a, b) => a.far - b.far)
    .slice(0, onOneMap)
    .map(({ place }) => place);
}

const middleOf = (values: readonly number[]): number =>
  (Math.min(...values) + Math.max(...values)) / 2;
const spanOf = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);

/** The longest of 1, 2 and 5 times a power of ten that is not longer than this. */
function roundLength(longest: number): number {
  const power = 10 ** Math.floor(Math.log10(longest));
  return ([5, 2, 1].find((times) => times * power <= longest * (1 + 1e-9)) ?? 1) * power;
}

/** Places on a plane true at their mean latitude; `kmPerUnit` is 1 for a bar in km, 1.609344 for miles. */
export function locatorOf(places: readonly Place[], kmPerUnit: number): Locator | null {
  if (places.length === 0) return null;
  const { width, height, margin, foot } = locatorBox;
  const plane = eastNorth(
    { latitude: latitudes(places), longitude: longitudes(places) },
    Int32Array.from(places, (_, i) => i),
  );
  const east = Array.from(plane.east, (km) => km / kmPerUnit);
  const north = Array.from(plane.north, (km) => km / kmPerUnit);
  const room = { x: width - 2 * margin, y: height - margin - foot };
  const scale = Math.min(
    room.x / Math.max(spanOf(east), leastSpan),
    room.y / Math.max(spanOf(north), leastSpan),
  );
  const [middleEast, middleNorth] = [middleOf(east), middleOf(north)];
  const length = roundLength(room.x / 2 / scale);
  return {
    dots: places.map(({ id }, i) => ({
      id,
      x: width / 2 + (east[i]! - middleEast) * scale,
      y: margin + room.y / 2 - (north[i]! - middleNorth) * scale,
    })),
    bar: { width: length * scale, length },
  };
}
