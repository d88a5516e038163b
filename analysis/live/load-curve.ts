import { cellsPerLog, sameRatio } from './load-profiles.ts';
import { nodeRounding, type RainNodes } from './rain-nodes.ts';

/** Numbers a place of a curve or table: the mean at the least, middle and greatest variance, and the bound. */
export const numbersAtOnce = 4;

/**
 * The mean of w^α over the five nodes of the rain, in millionths, by ln wetting (L/m² at the median rain): place j is
 * the ln `from` + j / cellsPerLog, with four numbers: the mean at the least, middle and greatest variance of the rain,
 * and how far the rounding of wetting and w can move a w^α near there.
 */
export interface LoadCurve {
  readonly values: Float64Array;
  /** Millionths by which reading the curve twice between its places and once between variances can err. */
  readonly interpolation: number;
}

/** What the curve is of. */
export interface CurveOf {
  readonly alpha: number;
  readonly halfLoad: number;
  readonly rain: Pick<RainNodes, 'z' | 'leastVariance' | 'greatestVariance'>;
  /** The greatest coefficient of the portfolio, L/m² per mm. */
  readonly greatest: number;
}

/** Errors are measured where they are greatest to leading order; what is beyond is below this factor. */
const margin = 1.5;

export function loadCurve(of: CurveOf, from: number, places: number): LoadCurve {
  const { leastVariance: least, greatestVariance: greatest } = of.rain;
  const spreads = [least, (least + greatest) / 2, greatest].map(Math.sqrt);
  const values = new Float64Array(places * numbersAtOnce);
  const bounds = boundsNear(of, from, places);
  for (let j = 0; j < places; j++) {
    const y = from + j / cellsPerLog;
    for (let i = 0; i < 3; i++) values[j * numbersAtOnce + i] = nodeMean(of, y, spreads[i]!);
    values[j * numbersAtOnce + 3] = bounds[j]!;
  }
  // Once to mix a profile, once to read its table, and the second reading widens what the first erred.
  const interpolation =
    margin * (3 * alongWetting(of, values, from) + alongVariance(of, values, from));
  return { values, interpolation };
}

const loadAt = (y: number, halfLoad: number): number => 1 / (1 + halfLoad * Math.exp(-y));

/** Millionths. */
function nodeMean({ alpha, halfLoad, rain: { z } }: CurveOf, y: number, spread: number): number {
  let sum = 0;
  for (let i = 0; i < z.length; i++) sum += loadAt(y + z[i]! * spread, halfLoad) ** alpha;
  return (sum / z.length) * 1e6;
}

/** Millionths by which w^α at ln wetting y may move when rain, coefficient, wetting and w are rounded as in the SQL. */
function boundAt({ alpha, halfLoad, greatest }: CurveOf, y: number): number {
  const w = loadAt(y, halfLoad);
  const wetting = Math.exp(y);
  const wettingOff = 5e-6 + greatest * nodeRounding + 2 * sameRatio * wetting;
  const off = 5e-7 + (wettingOff * w * (1 - w)) / wetting;
  const up = (w + off) ** alpha - w ** alpha;
  const down = w ** alpha - Math.max(0, w - off) ** alpha;
  return Math.max(up, down) * 1e6;
}

/**
 * The greatest bound that a wetting from each place to two places on (a table cell, seen from within a cell) can meet over
 * the nodes.
 */
function boundsNear(of: CurveOf, from: number, places: number): Float64Array {
  const far = Math.ceil(of.rain.z.at(-1)! * Math.sqrt(of.rain.greatestVariance) * cellsPerLog);
  const at = Float64Array.from({ length: places }, (_, j) => boundAt(of, from + j / cellsPerLog));
  return at.map((_, j) => Math.max(...at.subarray(Math.max(0, j - far), j + far + 3)));
}

/** The greatest error in the middle of a cell, where a cubic errs most, of the curve that bends most. */
function alongWetting(of: CurveOf, values: Float64Array, from: number): number {
  const spread = Math.sqrt(of.rain.leastVariance);
  const value = (j: number) => values[j * numbersAtOnce]!;
  let most = 0;
  for (let j = 1; j < values.length / numbersAtOnce - 2; j++) {
    const read = (9 * (value(j) + value(j + 1)) - value(j - 1) - value(j + 2)) / 16;
    const y = from + (j + 0.5) / cellsPerLog;
    most = Math.max(most, Math.abs(read - nodeMean(of, y, spread)));
  }
  return most;
}

/** The greatest error half-way between the variances of the curve, where a parabola errs most. */
function alongVariance(of: CurveOf, values: Float64Array, from: number): number {
  const { leastVariance: least, greatestVariance: greatest } = of.rain;
  let most = 0;
  for (let at = 0; at < values.length; at += numbersAtOnce) {
    const y = from + at / numbersAtOnce / cellsPerLog;
    const [low, middle, high] = [values[at]!, values[at + 1]!, values[at + 2]!];
    const lower = (3 * low + 6 * middle - high) / 8;
    const upper = (3 * high + 6 * middle - low) / 8;
    const exact = (share: number) => nodeMean(of, y, Math.sqrt(least + share * (greatest - least)));
    most = Math.max(most, Math.abs(lower - exact(0.25)), Math.abs(upper - exact(0.75)));
  }
  return most;
}
