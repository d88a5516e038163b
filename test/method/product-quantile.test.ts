import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { distribution } from '../../analysis/index/interval.ts';
import { type Factor, productQuantiles } from '../../analysis/index/product-quantile.ts';

/** Values with whole weights. */
type Weighted = readonly (readonly [value: number, weight: number])[];

/** All products formed and sorted: the smallest whose cumulative weight reaches q. */
function naive(a: Weighted, b: Weighted, q: number): number {
  const products = a.flatMap(([x, p]) => b.map(([y, r]) => [x * y, p * r] as const));
  const total = products.reduce((sum, [, weight]) => sum + weight, 0);
  let sum = 0;
  const reached = products
    .sort(([x], [y]) => x - y)
    .find(([, weight]) => {
      sum += weight;
      return sum / total >= q - 1e-12;
    });
  return reached![0];
}

function factorOf(a: Weighted): Factor {
  const values = Float64Array.from(a, ([value]) => value);
  const total = a.reduce((sum, [, weight]) => sum + weight, 0);
  return {
    n: a.length,
    values,
    weights: Float64Array.from(a, ([, weight]) => weight / total),
  };
}

const distributionOf = (b: Weighted) =>
  distribution(
    b.map(([value]) => value),
    b.map(([, weight]) => weight),
  );

/** A search that begins at `value`, as if each value of the factor reached as far as `reach` says. */
const from = (a: Weighted, value: number, reach = 0) => ({
  value,
  reach: new Int32Array(a.length).fill(reach),
});

/** Millionths from none to all; `coarse` sets have many equal products. */
const set = (steps: number, maxLength: number): fc.Arbitrary<Weighted> =>
  fc.array(
    fc.tuple(
      fc.integer({ min: 0, max: steps }).map((i) => Math.round((i / steps) * 1e6) / 1e6),
      fc.integer({ min: 1, max: 90 }),
    ),
    { minLength: 1, maxLength },
  );

describe('the quantile of a product is the smallest of all products whose cumulative weight reaches q', () => {
  const quantile = productQuantiles();
  test.each([
    { sets: 'of few values', steps: 1e6, maxLength: 4 },
    { sets: 'of many values', steps: 1e6, maxLength: 60 },
    { sets: 'with many equal products', steps: 12, maxLength: 60 },
  ])('for sets $sets, to the last bit', ({ steps, maxLength }) => {
    fc.assert(
      fc.property(
        set(steps, maxLength),
        set(steps, maxLength),
        fc.constantFrom(0.1, 0.5, 0.9, 1),
        fc.double({ min: 0, max: 2, noNaN: true }),
        fc.nat(60),
        (a, b, q, near, reach) => {
          expect(quantile(factorOf(a), distributionOf(b), q, from(a, near, reach % b.length))).toBe(
            naive(a, b, q),
          );
        },
      ),
      { seed: 7, numRuns: 400 },
    );
  });

  test('wherever the search begins', () => {
    const a: Weighted = Array.from({ length: 50 }, (_, i) => [Math.sqrt(i) / 7, 1 + (i % 5)]);
    const b: Weighted = Array.from({ length: 40 }, (_, i) => [Math.cbrt(i) / 4, 1 + (i % 3)]);
    const expected = naive(a, b, 0.1);
    const begun = [0, 1e-9, expected, 0.5, 1, 1e9, Number.NaN, Number.POSITIVE_INFINITY];
    for (const near of begun) {
      expect(quantile(factorOf(a), distributionOf(b), 0.1, from(a, near)), `${near}`).toBe(
        expected,
      );
    }
  });

  test('and 0 where nothing else can come of it', () => {
    const nothing: Weighted = [[0, 3]];
    const many: Weighted = Array.from({ length: 50 }, (_, i) => [i / 50, 1]);
    expect(quantile(factorOf(nothing), distributionOf(many), 0.9, from(nothing, 0))).toBe(0);
    expect(quantile(factorOf(many), distributionOf(nothing), 0.9, from(many, 0))).toBe(0);
  });
});
