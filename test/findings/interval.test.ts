import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  clopperPearson,
  effectiveSize,
  exactInterval,
  kornGraubard,
} from '../../analysis/findings/interval.ts';
import { fixture } from './reference.ts';

fc.configureGlobal({ seed: 20261125 });

interface Ends {
  readonly low: number;
  readonly high: number;
}
/** binom.test, and a search over every number of marked units with dhyper: test/reference/findings/distributions.R. */
const reference = fixture<{
  readonly clopper_pearson: readonly (Ends & {
    readonly x: number;
    readonly n: number;
    readonly level: number;
  })[];
  readonly exact: readonly (Ends & {
    readonly size: number;
    readonly n: number;
    readonly x: number;
    readonly q: number;
  })[];
}>('distributions.json');

describe('intervals of a share', () => {
  test("Clopper and Pearson's is that of binom.test", () => {
    for (const { x, n, level, low, high } of reference.clopper_pearson) {
      const got = clopperPearson(x, n, level);
      expect(got.low).toBeCloseTo(low, 9);
      expect(got.high).toBeCloseTo(high, 9);
    }
  });

  test('the exact one is found by R too, by trying every number of marked units, also where openings miss', () => {
    for (const { size, n, x, q, low, high } of reference.exact) {
      const got = exactInterval({ size, drawn: n, seen: x }, 0.95, q);
      expect([got.low, got.high], `${size} ${n} ${x} ${q}`).toEqual([
        expect.closeTo(low, 12),
        expect.closeTo(high, 12),
      ]);
    }
  });

  const counts = fc
    .record({ size: fc.integer({ min: 1, max: 150 }), a: fc.nat(), b: fc.nat() })
    .map(({ size, a, b }) => {
      const drawn = 1 + (a % size);
      return { size, drawn, seen: b % (drawn + 1) };
    });

  test('the exact interval holds the share seen, never more than is known, and mirrors', () => {
    fc.assert(
      fc.property(counts, (count) => {
        const { size, drawn, seen } = count;
        const { low, high } = exactInterval(count, 0.95);
        expect(low).toBeGreaterThanOrEqual(seen / size);
        expect(high).toBeLessThanOrEqual(1 - (drawn - seen) / size + 1e-12);
        expect(low).toBeLessThanOrEqual(seen / drawn + 1e-12);
        expect(high).toBeGreaterThanOrEqual(seen / drawn - 1 / size);
        const mirrored = exactInterval({ ...count, seen: drawn - seen }, 0.95);
        expect(mirrored.low).toBeCloseTo(1 - high, 12);
      }),
    );
  });

  test('openings that miss only ever widen it upwards', () => {
    fc.assert(
      fc.property(counts, fc.double({ min: 0.2, max: 1, noNaN: true }), (count, detection) => {
        expect(exactInterval(count, 0.95, detection).high).toBeGreaterThanOrEqual(
          exactInterval(count, 0.95).high - 1e-12,
        );
      }),
    );
  });

  test('a whole population opened leaves nothing open', () => {
    expect(exactInterval({ size: 30, drawn: 30, seen: 4 }, 0.95)).toEqual({
      low: 4 / 30,
      high: 4 / 30,
    });
  });

  const designShare = {
    share: 0.2,
    variance: (0.2 * 0.8) / 10,
    n: 40,
    degreesOfFreedom: 39,
    weightedN: 30,
  };

  test('Korn and Graubard count only the openings that the variance leaves', () => {
    expect(effectiveSize(designShare, 0.95)).toBeCloseTo(10, 12);
    expect(kornGraubard(designShare, 0.95)).toEqual(clopperPearson(2, 10, 0.95));
  });

  test('the effective size is never more than the openings, however small the variance', () => {
    expect(effectiveSize({ ...designShare, variance: 1e-9 }, 0.95)).toBe(40);
    expect(effectiveSize({ ...designShare, variance: 0 }, 0.95)).toBe(40);
  });

  test('where all openings are alike the weights decide, and the interval still has a width', () => {
    expect(kornGraubard({ ...designShare, share: 0, variance: 0 }, 0.95)).toEqual(
      clopperPearson(0, 30, 0.95),
    );
    expect(kornGraubard({ ...designShare, share: 1, variance: 0 }, 0.95).low).toBeLessThan(0.9);
  });
});
