import { earthRadiusKm, haversineKm } from '../rain/great-circle.ts';
import { positions } from '../stations/sphere.ts';

/** Places by their position, degrees WGS 84. */
export interface Places {
  readonly longitude: Float64Array;
  readonly latitude: Float64Array;
}

/**
 * Whether place `a` of some places lies within a great-circle distance of place `b`: the haversine distance, rounded to the
 * millimetre, is no greater. Straight lines through the Earth decide all but the closest calls.
 */
export function nearness({ longitude, latitude }: Places): {
  within(km: number): (a: number, b: number) => boolean;
} {
  const { x, y, z } = positions(longitude, latitude);
  return {
    within(km) {
      const limit = Math.round(km * 1e6);
      const chord = (2 * Math.sin((limit + 0.5) / 1e6 / (2 * earthRadiusKm))) ** 2;
      // Far wider than what rounding does to a unit vector, far narrower than a millimetre of half a kilometre.
      const [sure, sureNot] = [chord * (1 - 1e-8), chord * (1 + 1e-8)];
      return (a, b) => {
        const square = (x[a]! - x[b]!) ** 2 + (y[a]! - y[b]!) ** 2 + (z[a]! - z[b]!) ** 2;
        if (square < sure) return true;
        if (square > sureNot) return false;
        return (
          Math.round(haversineKm(longitude[a]!, latitude[a]!, longitude[b]!, latitude[b]!) * 1e6) <=
          limit
        );
      };
    },
  };
}
