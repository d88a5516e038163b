import { type Random, shuffled, unit } from './random.ts';

/**
 * Systematic selection in random order (Madow 1949): the units stand in a row, each as long as its chance, and every whole
 * step from a random start takes the one it falls on. Returns places in `chances`, which lie below 1 and add up to the
 * whole number n; each is taken once at most.
 */
export function systematic(chances: Float64Array, n: number, random: Random): Int32Array {
  const order = shuffled(
    random,
    Int32Array.from({ length: chances.length }, (_, i) => i),
  );
  const start = unit(random);
  const taken = new Int32Array(n);
  let [along, count] = [0, 0];
  order.forEach((place, k) => {
    along += chances[place]!;
    // The row may end a rounding short of n: the last units then make up what is missing.
    const missing = n - count >= order.length - k;
    if (count < n && (missing || along > start + count)) taken[count++] = place;
  });
  return taken;
}
