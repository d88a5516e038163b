/**
 * An index in whole hundredths, 0-10,000, which is how it is printed: two bytes a building where a double takes eight.
 */

/** In place of an index where there is none. */
export const noIndex = -1;

/** The index, 0-100; NaN where there is none. */
export const indexOf = (cents: number): number => (cents === noIndex ? Number.NaN : cents / 100);

/** From indices as printed, to 0.01; NaN is none. */
export function centsOf(index: Float64Array): Int16Array<ArrayBuffer> {
  const cents = new Int16Array(index.length);
  for (let b = 0; b < cents.length; b++) {
    cents[b] = Number.isNaN(index[b]!) ? noIndex : Math.round(index[b]! * 100);
  }
  return cents;
}
