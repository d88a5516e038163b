/**
 * An index in whole hundredths, 0-10,000, which is how it is printed: two bytes a building where a double takes eight.
 */

/** In place of an index where there is none. */
export const noIndex = -1;

/** The index, 0-100; NaN where there is none. */
export const indexOf = (cents: number): number => (cents === noIndex ? Number.NaN : cents / 100);

/** The same of many: an array made by a function takes ten times as long. */
export function indicesOf(cents: Int16Array): Float64Array {
  const index = new Float64Array(cents.length);
  for (let b = 0; b < index.length; b++) index[b] = indexOf(cents[b]!);
  return index;
}

/** From indices as printed, to 0.01; NaN is none. */
export function centsOf(index: Float64Array): Int16Array<ArrayBuffer> {
  const cents = new Int16Array(index.length);
  for (let b = 0; b < cents.length; b++) {
    cents[b] = Number.isNaN(index[b]!) ? noIndex : Math.round(index[b]! * 100);
  }
  return cents;
}
