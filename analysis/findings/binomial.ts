/**
 * The binomial probability in the saddle-point form of Loader, *Fast and Accurate Computation of Binomial Probabilities*
 * (2000): a small error of Stirling's formula and two deviances, so that nothing large is ever subtracted. It holds for
 * counts that are not whole numbers, which is what the beta distribution needs.
 */

const halfLnTwoPi = 0.9189385332046727;

/** Coefficients of Stirling's series 1/(12 n) − 1/(360 n³) + … in 1/n². */
const stirlingSeries = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156];
/** From here on the series is exact to the last digit of a double. */
const seriesFrom = 12;

const series = (n: number): number =>
  stirlingSeries.reduceRight((sum, c) => sum / (n * n) + c, 0) / n;

/** ln Γ(n + 1) less Stirling's n ln n − n + ½ ln(2 π n), n > 0; small n are shifted up to where the series is exact. */
function stirlingError(n: number): number {
  if (n >= seriesFrom) return series(n);
  const steps = Math.ceil(seriesFrom - n);
  const high = n + steps;
  let product = 0;
  for (let k = 1; k <= steps; k += 1) product += Math.log(n + k);
  const lnGammaHigh = (high + 0.5) * Math.log(high) - high + halfLnTwoPi + series(high);
  return lnGammaHigh - product - ((n + 0.5) * Math.log(n) - n + halfLnTwoPi);
}

/** Deviance x ln(x/m) + m − x without cancellation where x is near m. */
function deviance(x: number, m: number): number {
  if (Math.abs(x - m) >= 0.1 * (x + m)) return x * Math.log(x / m) + m - x;
  const v = (x - m) / (x + m);
  let sum = (x - m) * v;
  let term = 2 * x * v;
  for (let j = 1; j < 1000; j += 1) {
    term *= v * v;
    const next = sum + term / (2 * j + 1);
    if (next === sum) return next;
    sum = next;
  }
  return sum;
}

/** Chance of x in n trials of chance p each; `q` is 1 − p, given apart so that it keeps its digits. */
export function binomialChance(x: number, n: number, p: number, q = 1 - p): number {
  if (x < 0 || x > n) return 0;
  if (p <= 0) return x === 0 ? 1 : 0;
  if (q <= 0) return x === n ? 1 : 0;
  if (x === 0) return Math.exp(n * Math.log1p(-p));
  if (x === n) return Math.exp(n * Math.log1p(-q));
  const errors = stirlingError(n) - stirlingError(x) - stirlingError(n - x);
  const exponent = errors - deviance(x, n * p) - deviance(n - x, n * q);
  return Math.exp(exponent) * Math.sqrt(n / (2 * Math.PI * x * (n - x)));
}

/** Chance of at most x (a whole number) in n trials. */
export function binomialAtMost(x: number, n: number, p: number): number {
  let sum = 0;
  for (let k = 0; k <= Math.min(x, n); k += 1) sum += binomialChance(k, n, p);
  return Math.min(1, sum);
}
