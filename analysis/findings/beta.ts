import { binomialChance } from './binomial.ts';

const most = 10_000;
const tiny = 1e-300;

/**
 * The continued fraction of the incomplete beta function (Abramowitz and Stegun 26.5.8), by Lentz's algorithm as modified
 * by Thompson and Barnett (1986). Converges fast for x below the mean (a + 1)/(a + b + 2).
 */
function fraction(x: number, a: number, b: number): number {
  const away = (value: number): number => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let result = d;
  for (let m = 1; m < most; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    let ratio = 1;
    for (const term of [even, odd]) {
      d = 1 / away(1 + term * d);
      c = away(1 + term / c);
      ratio = c * d;
      result *= ratio;
    }
    if (Math.abs(ratio - 1) < 1e-16) return result;
  }
  return result;
}

/** I_x(a, b) for x below the mean; `y` is 1 − x. */
const lowerPart = (x: number, y: number, a: number, b: number): number =>
  (binomialChance(a, a + b, x, y) * b * fraction(x, a, b)) / (a + b);

/**
 * I_x(a, b), the distribution function of a beta variable, a, b > 0, to about 1e-13. `y` is 1 − x where the caller knows
 * it to more digits.
 */
export function betaBelow(x: number, a: number, b: number, y = 1 - x): number {
  if (x <= 0) return 0;
  if (y <= 0) return 1;
  return x <= (a + 1) / (a + b + 2) ? lowerPart(x, y, a, b) : 1 - lowerPart(y, x, b, a);
}

/** Density of a beta variable strictly between 0 and 1. */
const density = (x: number, a: number, b: number): number =>
  (binomialChance(a, a + b, x) * a * b) / ((a + b) * x * (1 - x));

/** x with I_x(a, b) = p, by Newton's steps that never leave a bracket which is halved where they would. */
export function betaQuantile(p: number, a: number, b: number): number {
  if (p <= 0) return 0;
  if (p >= 1) return 1;
  let low = 0;
  let high = 1;
  let x = a / (a + b);
  for (let i = 0; i < 200 && high - low > 1e-16 * high; i += 1) {
    const excess = betaBelow(x, a, b) - p;
    if (excess === 0) return x;
    if (excess > 0) high = x;
    else low = x;
    const stepped = x - excess / density(x, a, b);
    const next = stepped > low && stepped < high ? stepped : (low + high) / 2;
    if (next === x) return x;
    x = next;
  }
  return x;
}
