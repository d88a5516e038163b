/** A chance this near to 1 is 1: what is left is rounding. */
const nearlyOne = 1 - 1e-12;

/**
 * Inclusion probabilities in proportion to size that add up to n: where one would pass 1 the unit is certain, and the rest
 * is shared anew until none does (as Särndal, Swensson and Wretman, *Model Assisted Survey Sampling*, 1992, 3.6.2). All
 * sizes are above 0, and n is at most their number.
 */
export function chancesBySize(sizes: Float64Array, n: number): Float64Array {
  const chances = new Float64Array(sizes.length);
  for (let certain = -1, now = 0; now > certain; ) {
    certain = now;
    let total = 0;
    for (let i = 0; i < sizes.length; i += 1) if (chances[i] !== 1) total += sizes[i]!;
    now = 0;
    for (let i = 0; i < sizes.length; i += 1) {
      if (chances[i] !== 1) {
        const chance = ((n - certain) * sizes[i]!) / total;
        chances[i] = chance >= nearlyOne ? 1 : chance;
      }
      if (chances[i] === 1) now += 1;
    }
  }
  return chances;
}

/** Every unit alike. */
export const equalChances = (units: number, n: number): Float64Array =>
  new Float64Array(units).fill(n / units);
