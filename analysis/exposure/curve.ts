import { binnedValues, buildingsIn } from './sums.ts';
import type { ExposureColumns } from './types.ts';

/** Steps of the published index: it has two decimals, so each entry is exact. */
const perUnit = 100;
const steps = 100 * perUnit + 1;

/** What lies at or above each index. */
interface CurveLine {
  /** Insured value in the currency asked for. */
  readonly value: Float64Array;
  /** Lines, whatever their value. */
  readonly lines: Float64Array;
  /** Buildings that the lines stand for. */
  readonly buildings: Float64Array;
}

/** Entry i of each array is of the index i / 100, from 0 to 100. */
export interface Curve {
  readonly low: CurveLine;
  readonly mean: CurveLine;
  readonly high: CurveLine;
}

/** Place in the arrays of a curve of the least published index that is not below this one. */
export const stepOf = (index: number): number =>
  Math.min(steps - 1, Math.max(0, Math.ceil(Math.round(index * perUnit * 1e6) / 1e6)));

/** Value and buildings at or above any index, as scored and with all priors leaning low and high. What is not scored is in none. */
export function curveOf(columns: ExposureColumns, shown: Int32Array, currency: number): Curve {
  const line = (index: Float64Array) => lineOf(columns, shown, currency, index);
  return {
    low: line(columns.indexLow),
    mean: line(columns.index),
    high: line(columns.indexHigh),
  };
}

function lineOf(
  { insuredValue, buildingCount, currency: { codes } }: ExposureColumns,
  shown: Int32Array,
  currency: number,
  index: Float64Array,
): CurveLine {
  const value = binnedValues(steps);
  const lines = new Float64Array(steps);
  const buildings = new Float64Array(steps);
  for (const b of shown) {
    if (Number.isNaN(index[b]!)) continue;
    const step = Math.min(steps - 1, Math.max(0, Math.round(index[b]! * perUnit)));
    lines[step]!++;
    buildings[step]! += buildingsIn(buildingCount[b]!);
    if (codes[b] === currency && !Number.isNaN(insuredValue[b]!)) value.add(step, insuredValue[b]!);
  }
  return { value: value.fromTop(), lines: fromTop(lines), buildings: fromTop(buildings) };
}

function fromTop(counts: Float64Array): Float64Array {
  for (let step = counts.length - 2; step >= 0; step--) counts[step]! += counts[step + 1]!;
  return counts;
}
