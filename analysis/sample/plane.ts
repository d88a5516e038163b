import { earthRadiusKm } from '../rain/great-circle.ts';

/**
 * Cosines are rounded to this step before anything is decided on them: engines differ in their last bits. 1e-6 of a
 * distance is a metre in a thousand kilometres.
 */
const step = 1e6;

const kmPerDegree = (earthRadiusKm * Math.PI) / 180;

export const roundedCos = (degrees: number): number =>
  Math.round(Math.cos((degrees * Math.PI) / 180) * step) / step;

export const roundedSin = (degrees: number): number =>
  Math.round(Math.sin((degrees * Math.PI) / 180) * step) / step;

/** Difference of longitudes the short way round, −180 … 180. */
const turn = (degrees: number): number => ((((degrees + 180) % 360) + 360) % 360) - 180;

/** Places by ordinal, for distances between near ones. */
export interface Places {
  readonly latitude: Float64Array;
  readonly longitude: Float64Array;
  readonly cos: Float64Array;
}

export const placesOf = (latitude: Float64Array, longitude: Float64Array): Places => ({
  latitude,
  longitude,
  cos: latitude.map(roundedCos),
});

/** Distance as on a plane that touches the Earth between the two, km: true to a thousandth up to 100 km. */
export function planeKm({ latitude, longitude, cos }: Places, a: number, b: number): number {
  const north = (latitude[a]! - latitude[b]!) * kmPerDegree;
  const east = (turn(longitude[a]! - longitude[b]!) * kmPerDegree * (cos[a]! + cos[b]!)) / 2;
  return Math.sqrt(north * north + east * east);
}

/** Kilometres east and north of the first place of the units, on a plane true at their mean latitude; NaN without a place. */
export function eastNorth(
  { latitude, longitude }: Pick<Places, 'latitude' | 'longitude'>,
  units: Int32Array,
): { east: Float64Array; north: Float64Array } {
  const placed = units.filter((unit) => !Number.isNaN(latitude[unit]! + longitude[unit]!));
  const first = placed[0] ?? 0;
  const middle = placed.reduce((sum, unit) => sum + latitude[unit]!, 0) / placed.length;
  const scale = kmPerDegree * roundedCos(middle);
  return {
    east: Float64Array.from(units, (u) => turn(longitude[u]! - longitude[first]!) * scale),
    north: Float64Array.from(units, (u) => (latitude[u]! - latitude[first]!) * kmPerDegree),
  };
}
