import type { Hours } from './settle.ts';
import { weatherConstant } from './tables.ts';

/** Sums over the hours of driven rain by the exact direction of their wind, directions ascending. */
export interface DirectionSums {
  readonly directionDeg: Float64Array;
  /** Σ r v, mm · m/s: what κ is a share of. */
  readonly rainWind: Float64Array;
  /** Σ v r^(8/9): what the airfield index of ISO 15927-3 is made of. */
  readonly airfield: Float64Array;
}

const exponent = weatherConstant('airfield_exponent');
const factor = weatherConstant('airfield_factor');

/** v · r^(8/9) of one hour, v in m/s and r in mm. */
export const airfieldTerm = (speed: number, rain: number): number => speed * rain ** exponent;

/** Sums by direction over those hours for which `include` holds and whose direction is known. */
export function directionSums(hours: Hours, include: (i: number) => boolean): DirectionSums {
  const sums = new Map<number, { rainWind: number; airfield: number }>();
  for (let i = 0; i < hours.n; i += 1) {
    const direction = hours.direction[i]!;
    if (Number.isNaN(direction) || !include(i)) continue;
    const [rain, speed] = [hours.rain[i]!, hours.speed[i]!];
    const sum = sums.get(direction) ?? { rainWind: 0, airfield: 0 };
    sum.rainWind += rain * speed;
    sum.airfield += airfieldTerm(speed, rain);
    sums.set(direction, sum);
  }
  const ascending = [...sums].sort(([a], [b]) => a - b);
  return {
    directionDeg: Float64Array.from(ascending, ([direction]) => direction),
    rainWind: Float64Array.from(ascending, ([, sum]) => sum.rainWind),
    airfield: Float64Array.from(ascending, ([, sum]) => sum.airfield),
  };
}

export const total = (values: Float64Array): number => values.reduce((sum, x) => sum + x, 0);

/** Σ weight · max(0, cos(D − azimuth)): what a wall that faces the azimuth (degrees) meets of the weights. */
export function facing(
  directionDeg: Float64Array,
  weights: Float64Array,
  azimuthDeg: number,
): number {
  const met = directionDeg.map((direction, i) => {
    const cosine = Math.cos(((direction - azimuthDeg) * Math.PI) / 180);
    return weights[i]! * Math.max(0, cosine);
  });
  return total(met);
}

/** κ(β) = Σ f(D) max(0, cos(D − β)), f the share of Σ r v; not rounded. NaN where no direction is known. */
export const kappaAt = (sums: DirectionSums, azimuthDeg: number): number =>
  facing(sums.directionDeg, sums.rainWind, azimuthDeg) / total(sums.rainWind);

/** Σ I(θ) = (2/9) Σ v r^(8/9) max(0, cos(D − θ)) over the hours, mm; not divided by years and not rounded. */
export const airfieldSumAt = (sums: DirectionSums, azimuthDeg: number): number =>
  factor * facing(sums.directionDeg, sums.airfield, azimuthDeg);

/** Degrees between the directions that are published. */
export const step = 10;
const sectors = 360 / step;

/** Share of Σ r v by sector of 10°, the first from 355° to 5°; a direction on a bound is in the sector after it. */
export function sectorShares({ directionDeg, rainWind }: DirectionSums): Float64Array {
  const shares = new Float64Array(sectors);
  const all = total(rainWind);
  directionDeg.forEach((direction, i) => {
    shares[Math.floor((direction + step / 2) / step) % sectors]! += rainWind[i]! / all;
  });
  return shares;
}
