/** Evenly spaced coordinates, degrees: first + k · step for k = 0 … count − 1; step > 0. */
export interface Axis {
  readonly first: number;
  readonly step: number;
  readonly count: number;
}

/** A coordinate that lies between the places of an otherwise even spacing. */
export interface Uneven {
  readonly uneven: number;
  readonly step: number;
}

/** A coordinate may be off its place by this share of the step: people round them to few decimals. */
const tolerance = 0.02;

/** Coordinates are told apart to 1e-9 degrees: a tenth of a millimetre. */
const nine = (x: number): number => Math.round(x * 1e9) / 1e9;

const distinct = (values: Iterable<number>): Float64Array =>
  Float64Array.from(new Set(Array.from(values, nine))).sort();

const gaps = (sorted: Float64Array): Float64Array =>
  sorted.subarray(1).map((x, i) => x - sorted[i]!);

/** The spacing, estimated from the least gap and improved along the way: gaps of rounded coordinates differ. */
function spacing(sorted: Float64Array): number {
  const first = sorted[0]!;
  let step = gaps(sorted).reduce((least, gap) => Math.min(least, gap), Number.POSITIVE_INFINITY);
  for (const x of sorted.subarray(1)) step = (x - first) / Math.round((x - first) / step);
  return step;
}

/** The even spacing of at least two sorted, distinct coordinates; places in between may be empty. */
function evenly(sorted: Float64Array): Axis | Uneven {
  const first = sorted[0]!;
  const step = spacing(sorted);
  const off = (x: number) => Math.abs((x - first) / step - Math.round((x - first) / step));
  const uneven = sorted.find((x) => off(x) > tolerance);
  if (uneven !== undefined) return { uneven, step };
  return { first, step, count: Math.round((sorted.at(-1)! - first) / step) + 1 };
}

/** Longitude in −180 ≤ x < 180. */
const eastWest = (x: number): number => nine(x - 360 * Math.floor((x + 180) / 360));

/**
 * Sorted longitudes cut open at their widest gap, so that a region across the date line stays in one piece. A global
 * grid has no widest gap and begins in the west.
 */
function cutOpen(sorted: Float64Array): Float64Array {
  const around = sorted[0]! + 360 - sorted.at(-1)!;
  const inside = gaps(sorted);
  const widest = inside.reduce((w, gap, i) => (gap > inside[w]! ? i : w), 0);
  if (!(inside[widest]! > around + 1e-6)) return sorted;
  const west = sorted.subarray(widest + 1);
  const east = sorted.subarray(0, widest + 1).map((x) => nine(x + 360));
  return Float64Array.of(...west, ...east);
}

/** The axis of latitudes, south to north; null where fewer than two differ. */
export function latitudeAxis(values: Iterable<number>): Axis | Uneven | null {
  const sorted = distinct(values);
  return sorted.length < 2 ? null : evenly(sorted);
}

/** The axis of longitudes, given as −180 to 180 or 0 to 360; `first` is in −180 ≤ x < 180; null where fewer than two differ. */
export function longitudeAxis(values: Iterable<number>): Axis | Uneven | null {
  const sorted = distinct(Array.from(values, eastWest));
  return sorted.length < 2 ? null : evenly(cutOpen(sorted));
}

/** Place of a coordinate on an axis; longitudes a turn away count as the same. */
export const placeOn = (axis: Axis, x: number): number => Math.round((x - axis.first) / axis.step);
export function meridianOn(axis: Axis, x: number): number {
  const east = x - axis.first;
  // Half a step of slack: a longitude just west of the first by rounding is the first, not a turn away.
  return Math.round((east - 360 * Math.floor((east + axis.step / 2) / 360)) / axis.step);
}
