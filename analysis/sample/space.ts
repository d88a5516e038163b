import { eastNorth, roundedCos, roundedSin } from './plane.ts';
import { counted, type Population } from './types.ts';

/** Points of equal dimension, one a unit, row by row. */
export interface Points {
  readonly n: number;
  readonly dimensions: number;
  readonly at: Float64Array;
}

/** What the space is, for the plan. */
export const spaceRule =
  'Kilometres east and north over their common standard deviation, standardised ln(wetting) and standardised index; a unit without one of them stands at the mean of the others.';
export const azimuthRule = 'Cosine and sine of the direction the wall faces, each standardised.';

interface Moments {
  readonly mean: number;
  readonly variance: number;
}

function moments(values: Float64Array): Moments {
  const known = values.filter((value) => !Number.isNaN(value));
  const mean = known.reduce((sum, x) => sum + x, 0) / known.length;
  const variance = known.reduce((sum, x) => sum + (x - mean) * (x - mean), 0) / known.length;
  return { mean, variance };
}

/** From the mean, in standard deviations of the axis, or of the variance given; 0 for blanks and where all are alike. */
function standardised(values: Float64Array, variance?: number): Float64Array {
  const own = moments(values);
  const sd = Math.sqrt(variance ?? own.variance);
  return values.map((x) => (Number.isNaN(x) || !(sd > 0) ? 0 : (x - own.mean) / sd));
}

/** Rounded before it decides anything: engines differ in the last bits of a logarithm. */
const roundedLn = (x: number): number => (x > 0 ? Math.round(Math.log(x) * 1e6) / 1e6 : Number.NaN);

/**
 * The space in which a balanced sample is spread. East and north share one scale, so that a kilometre is as long in both;
 * all axes then count about alike whether the portfolio fills a street or a continent.
 */
export function spaceOf(
  population: Population,
  units: Int32Array,
  withAzimuth: boolean,
): { points: Points; says: string[] } {
  const { east, north } = eastNorth(population, units);
  const common = (moments(east).variance + moments(north).variance) / 2;
  const column = (of: Float64Array, change = (x: number) => x) =>
    standardised(Float64Array.from(units, (unit) => change(of[unit]!)));
  const axes = [
    standardised(east, common),
    standardised(north, common),
    column(population.wetting, roundedLn),
    column(population.index),
    ...(withAzimuth
      ? [column(population.azimuthDeg, roundedCos), column(population.azimuthDeg, roundedSin)]
      : []),
  ];
  const at = new Float64Array(units.length * axes.length);
  axes.forEach((axis, d) => {
    axis.forEach((x, k) => {
      at[k * axes.length + d] = x;
    });
  });
  const lost = east.filter((x, k) => Number.isNaN(x + north[k]!)).length;
  const says =
    lost > 0
      ? [
          `${counted(lost, population.unit)} without a place on record stand in the middle of the others for the balance.`,
        ]
      : [];
  return { points: { n: units.length, dimensions: axes.length, at }, says };
}
