import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chanceOver, rainInterval } from '../../analysis/rain/interval.ts';
import { normalBelow } from '../../analysis/rain/normal.ts';

// R 4.2.2: sprintf("%.17g", pnorm(x))
const pnorm: readonly (readonly [number, number])[] = [
  [-20, 2.7536241186062337e-89],
  [-10, 7.6198530241605269e-24],
  [-8, 6.2209605742717849e-16],
  [-7.1, 6.2378444633315907e-13],
  [-6, 9.8658764503769809e-10],
  [-4, 3.1671241833119924e-5],
  [-3, 0.0013498980316300946],
  [-2, 0.022750131948179212],
  [-1, 0.15865525393145705],
  [-0.5, 0.30853753872598694],
  [-0.001, 0.49960105778608893],
  [0, 0.5],
  [0.1, 0.53982783727702899],
  [0.7, 0.75803634777692697],
  [1, 0.84134474606854293],
  [1.96, 0.97500210485177963],
  [2.5, 0.99379033467422384],
  [3, 0.9986501019683699],
  [5, 0.99999971334842808],
  [7, 0.99999999999872013],
  [9, 1],
];

test('Φ equals R’s pnorm to 1e-14, and in the lower tail to 1e-8 of its value', () => {
  for (const [x, p] of pnorm) {
    expect(Math.abs(normalBelow(x) - p)).toBeLessThan(1e-14);
    if (x < 0) expect(Math.abs(normalBelow(x) / p - 1)).toBeLessThan(1e-8);
  }
  expect([normalBelow(Number.NEGATIVE_INFINITY), normalBelow(Number.POSITIVE_INFINITY)]).toEqual([
    0, 1,
  ]);
});

test('Φ rises, and its two tails sum to 1', () => {
  const x = fc.double({ min: -12, max: 12, noNaN: true });
  fc.assert(
    fc.property(x, x, (a, b) => {
      expect(normalBelow(a) + normalBelow(-a)).toBeCloseTo(1, 14);
      return a <= b === normalBelow(a) <= normalBelow(b) || normalBelow(a) === normalBelow(b);
    }),
    { seed: 3 },
  );
});

// R 4.2.2: pnorm(log(24/20)/.25) = 0.7670867
test('24 in a year with s 0.25 exceed 20 in with a chance of 0.7670867', () => {
  expect(chanceOver(24 * 25.4, 0.25, 508)).toBe(0.767087);
  expect(Math.abs(normalBelow(Math.log(24 / 20) / 0.25) - 0.7670867)).toBeLessThan(5e-8);
});

// R 4.2.2: 1000 * exp(c(-1, 1) * 1.2816 * .31), 4 decimals
test('the 80 % interval of 1000 mm with s 0.31 is 672.1350 to 1487.7963 mm', () => {
  expect(rainInterval(1000, 0.31)).toEqual({ low: 672.135, high: 1487.7963 });
});

test('without spread there is no doubt: the interval is the rain, the chance 0 or 1', () => {
  expect(rainInterval(812.3457, 0)).toEqual({ low: 812.3457, high: 812.3457 });
  expect([508.0001, 508, 507.9999].map((mm) => chanceOver(mm, 0, 508))).toEqual([1, 0, 0]);
});

test('no rain at all is dry, unknown rain is unknown', () => {
  expect([rainInterval(0, 0.3), chanceOver(0, 0.3, 508)]).toEqual([{ low: 0, high: 0 }, 0]);
  expect(rainInterval(Number.NaN, 0.3)).toEqual({ low: Number.NaN, high: Number.NaN });
  expect([chanceOver(Number.NaN, 0.3, 508), chanceOver(Number.NaN, 0, 508)]).toEqual([
    Number.NaN,
    Number.NaN,
  ]);
});

test('low to high holds 80 % of the chance', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 50, max: 4000, noNaN: true }),
      fc.double({ min: 0.05, max: 1, noNaN: true }),
      (mm, s) => {
        const { low, high } = rainInterval(mm, s);
        expect(chanceOver(mm, s, low) - chanceOver(mm, s, high)).toBeCloseTo(0.8, 4);
      },
    ),
    { seed: 4 },
  );
});
