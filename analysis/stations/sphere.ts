import { earthRadiusKm } from '../rain/great-circle.ts';

/** Points on the sphere as unit vectors: distances and the search for neighbours then know no date line and no pole. */
export interface Positions {
  readonly n: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
}

const radians = Math.PI / 180;

/** Unit vectors of points in degrees; NaN where a coordinate is. */
export function positions(longitude: Float64Array, latitude: Float64Array): Positions {
  const n = longitude.length;
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  const z = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const across = Math.cos(latitude[i]! * radians);
    x[i] = across * Math.cos(longitude[i]! * radians);
    y[i] = across * Math.sin(longitude[i]! * radians);
    z[i] = Math.sin(latitude[i]! * radians);
  }
  return { n, x, y, z };
}

/** Great-circle distance of two points a squared chord apart, km: the haversine is a quarter of the squared chord. */
export const kmOfChord = (squared: number): number =>
  2 * earthRadiusKm * Math.asin(Math.min(1, Math.sqrt(squared) / 2));

/** Great-circle distance from point i of `a` to point j of `b`, km. */
export function kmBetween(a: Positions, i: number, b: Positions, j: number): number {
  const dx = a.x[i]! - b.x[j]!;
  const dy = a.y[i]! - b.y[j]!;
  const dz = a.z[i]! - b.z[j]!;
  return kmOfChord(dx * dx + dy * dy + dz * dz);
}
