import { expect, test } from 'vitest';
import { seeded } from '../../analysis/sample/random.ts';
import { between, draw, shuffled, weighted } from '../../data/demo/random.ts';

test('a draw follows its weights, a range keeps its ends, a shuffle loses nothing', () => {
  const random = seeded(7);
  const n = 30_000;
  const drawn = Array.from({ length: n }, () =>
    draw(
      random,
      weighted([1, 3, 0, 6], (w) => w),
    ),
  );
  // Binomial: 4 standard deviations of a share of 0.6 in 30,000 draws are 0.0113.
  expect(Math.abs(drawn.filter((w) => w === 6).length / n - 0.6)).toBeLessThan(0.0113);
  expect(drawn).not.toContain(0);
  const dice = new Set(Array.from({ length: 1000 }, () => between(random, 1, 6)));
  expect([...dice].sort()).toEqual([1, 2, 3, 4, 5, 6]);
  const list = Array.from({ length: 100 }, (_, i) => i);
  expect(shuffled(random, list).sort((a, b) => a - b)).toEqual(list);
});
