/** Value of a polynomial with these coefficients, highest power first. */
const polynomial = (coefficients: readonly number[], x: number): number =>
  coefficients.reduce((sum, c) => sum * x + c, 0);

const numerator = [
  3.52624965998911e-2, 0.700383064443688, 6.37396220353165, 33.912866078383, 112.079291497871,
  221.213596169931, 220.206867912376,
];
const denominator = [
  8.83883476483184e-2, 1.75566716318264, 16.064177579207, 86.7807322029461, 296.564248779674,
  637.333633378831, 793.826512519948, 440.413735824752,
];
/** Where the rational approximation hands over to the continued fraction: 5 √2. */
const handOver = 7.07106781186547;

/** Chance above x of a standard normal variable, x ≥ 0, before the factor exp(−x²/2). */
function tailFactor(x: number): number {
  if (x < handOver) return polynomial(numerator, x) / polynomial(denominator, x);
  const fraction = [4, 3, 2, 1].reduce((below, k) => x + k / below, x + 0.65);
  return 1 / (fraction * Math.sqrt(2 * Math.PI));
}

/**
 * Φ(x), the standard normal distribution function, to about 1e-15: algorithm 5666 of Hart, *Computer Approximations*,
 * Wiley 1968, in the form of West, *Better approximations to cumulative normal functions*, Wilmott Magazine, May 2005.
 */
export function normalBelow(x: number): number {
  const tail = Math.exp((-x * x) / 2) * tailFactor(Math.min(Math.abs(x), 40));
  return x > 0 ? 1 - tail : tail;
}
