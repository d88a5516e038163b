import { expect, test } from 'vitest';
import { backward, factorize, forward, forwardAll } from '../../analysis/stations/cholesky.ts';
import { eliminate } from './dense.ts';
import { sequence } from './scene.ts';

/** A symmetric positive definite matrix B Bᵀ + I, as rows. */
function positive(n: number, seed: number): number[][] {
  const random = sequence(seed);
  const b = Array.from({ length: n }, () => Array.from({ length: n }, () => random() - 0.5));
  return b.map((u, i) =>
    b.map((v, j) => u.reduce((sum, x, k) => sum + x * v[k]!, 0) + Number(i === j)),
  );
}

const sizes = [1, 2, 3, 4, 5, 7, 8, 9, 31, 32, 33, 70];

test('a factored solve equals Gaussian elimination at sizes that divide by four and at those that do not', () => {
  for (const n of sizes) {
    const rows = positive(n, n);
    const right = Float64Array.from({ length: n }, (_, i) => Math.sin(i + 1));
    const expected = eliminate(rows, [...right]);
    const c = Float64Array.from(rows.flat());
    expect(factorize(c, n)).toBe(true);
    forward(c, n, right);
    backward(c, n, right);
    expected.forEach((x, i) => {
      expect(Math.abs(right[i]! - x)).toBeLessThan(1e-11);
    });
  }
});

test('what stands above the diagonal is neither read nor written', () => {
  const n = 9;
  const rows = positive(n, 1);
  const clean = Float64Array.from(rows.flat());
  const marked = Float64Array.from(rows.flatMap((row, i) => row.map((x, j) => (j > i ? 99 : x))));
  factorize(clean, n);
  factorize(marked, n);
  marked.forEach((x, k) => {
    const above = k % n > Math.floor(k / n);
    expect(x).toBe(above ? 99 : clean[k]);
  });
});

test('many right sides at once come out as one by one, zeros at their beginning or not', () => {
  for (const count of [1, 2, 3, 4, 5, 9]) {
    const n = 13;
    const c = Float64Array.from(positive(n, 5).flat());
    factorize(c, n);
    const side = (q: number) =>
      Float64Array.from({ length: n }, (_, i) => (i < 3 ? 0 : Math.cos(q + i)));
    const together = Array.from({ length: count }, (_, q) => side(q));
    const skipping = Array.from({ length: count }, (_, q) => side(q));
    forwardAll(c, n, together);
    forwardAll(c, n, skipping, 3);
    together.forEach((x, q) => {
      const single = side(q);
      forward(c, n, single);
      x.forEach((value, i) => {
        expect(Math.abs(value - single[i]!)).toBeLessThan(1e-13);
        expect(Math.abs(skipping[q]![i]! - single[i]!)).toBeLessThan(1e-13);
      });
    });
  }
});

test('a matrix that is not positive definite is told', () => {
  expect(factorize(Float64Array.of(1, 0, 2, 1), 2)).toBe(false);
  expect(factorize(Float64Array.of(1, 0, 1, 1), 2)).toBe(false);
  expect(factorize(Float64Array.of(-1), 1)).toBe(false);
  expect(factorize(Float64Array.of(Number.NaN), 1)).toBe(false);
});
