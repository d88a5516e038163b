import { describe, expect, test } from 'vitest';
import {
  chanceOfSeeing,
  type DiscoveryAim,
  discoverySize,
} from '../../analysis/sample/discovery.ts';
import { marginAt, type ProportionAim, proportionSize } from '../../analysis/sample/proportion.ts';
import { affordable, costOf, discoveryCurve, marginCurve } from '../../analysis/sample/size.ts';
import { fixture } from './reference.ts';

const aim: ProportionAim = { population: 1000, margin: 0.05, confidence: 0.95, share: 0.5 };
const search: DiscoveryAim = { population: 100, share: 0.05, confidence: 0.95, detection: 1 };

const n = (found: ReturnType<typeof discoverySize> | ReturnType<typeof proportionSize>) =>
  found.ok ? found.n : null;

interface Reference {
  sizes: { N: number; share: number; confidence: number; q: number; n: number | null }[];
  chances: { N: number; D: number; n: number; q: number; chance: number }[];
}
const reference = fixture<Reference>('sample.json');

describe('openings for a share', () => {
  test('95 %, ±5 points: 385 of very many, 278 of 1,000 (Cochran)', () => {
    expect(n(proportionSize({ ...aim, population: 1e9 }))).toBe(385);
    expect(n(proportionSize(aim))).toBe(278);
  });

  // from memory of Krejcie and Morgan, Determining sample size for research activities, 1970, table 1, which rounds to the nearest.
  test.each([
    [10, 10],
    [50, 44],
    [100, 80],
    [200, 132],
    [500, 217],
    [1000, 278],
    [2000, 322],
    [5000, 357],
    [10000, 370],
  ])('of %i: %i in the published table, never fewer here', (population, published) => {
    const found = proportionSize({ ...aim, population });
    expect(found.ok && Math.round(found.unrounded)).toBe(published);
    expect(n(found)! - published).toBeGreaterThanOrEqual(0);
    expect(n(found)! - published).toBeLessThanOrEqual(1);
  });

  test('n buys the margin, and one fewer does not', () => {
    for (const population of [30, 400, 12_345]) {
      for (const share of [0.03, 0.1, 0.5]) {
        const size = n(proportionSize({ ...aim, population, share }))!;
        expect(marginAt(size, { ...aim, population, share })).toBeLessThanOrEqual(0.05 + 1e-12);
        if (size > 1)
          expect(marginAt(size - 1, { ...aim, population, share })).toBeGreaterThan(0.05);
      }
    }
  });

  test('opening all of them leaves no margin', () => {
    expect(marginAt(60, { ...aim, population: 60 })).toBe(0);
    expect(n(proportionSize({ ...aim, population: 1 }))).toBe(1);
  });

  test.each([
    [{ population: 0 }, 'The population is empty'],
    [{ margin: 0 }, 'The margin must lie'],
    [{ confidence: 95 }, 'The confidence must lie'],
    [{ share: -0.1 }, 'The expected share must lie'],
    [{ margin: Number.NaN }, 'The margin must lie'],
  ])('%o is answered in a sentence', (wrong, says) => {
    const found = proportionSize({ ...aim, ...wrong });
    expect(found.ok).toBe(false);
    expect(found.says.join()).toContain(says);
  });
});

describe('openings to see at least one', () => {
  test('the chance is that of R’s dhyper, thinned by the detection', () => {
    for (const { N, D, n: drawn, q, chance } of reference.chances) {
      const found = chanceOfSeeing(drawn, D, { population: N, detection: q });
      expect(Math.abs(found - chance), `${N} ${D} ${drawn} ${q}`).toBeLessThan(1e-9);
    }
  });

  test('the smallest n is that of R’s phyper and dhyper', () => {
    for (const { N, share, confidence, q, n: expected } of reference.sizes) {
      const found = discoverySize({ population: N, share, confidence, detection: q });
      expect(n(found), `${N} ${share} ${confidence} ${q}`).toBe(expected);
    }
  });

  // R phyper, as in the method's reference values.
  test.each([
    [100, 0.05, 0.95, 45],
    [1000, 0.01, 0.95, 258],
    [200, 0.05, 0.95, 51],
    [60, 0.1, 0.9, 19],
    [100, 0.07, 0.95, 34],
    [500, 0.02, 0.9, 102],
  ])('of %i, share %f, confidence %f: %i', (population, share, confidence, expected) => {
    expect(n(discoverySize({ population, share, confidence, detection: 1 }))).toBe(expected);
  });

  // from memory of Cannon and Roe, Livestock Disease Surveys, 1982, table of sizes at 95 % (an approximation: within 1).
  test.each([
    [50, 0.1, 22],
    [100, 0.1, 25],
    [100, 0.02, 78],
    [200, 0.1, 27],
    [500, 0.05, 56],
    [500, 0.02, 129],
    [1000, 0.05, 57],
    [1000, 0.02, 138],
  ])('of %i, share %f: %i in the published table', (population, share, published) => {
    const found = n(discoverySize({ population, share, confidence: 0.95, detection: 1 }))!;
    expect(Math.abs(found - published)).toBeLessThanOrEqual(1);
  });

  test('openings that miss one in five need more: 56, 323, 64 (R dhyper)', () => {
    const q = { confidence: 0.95, detection: 0.8 };
    expect(n(discoverySize({ population: 100, share: 0.05, ...q }))).toBe(56);
    expect(n(discoverySize({ population: 1000, share: 0.01, ...q }))).toBe(323);
    expect(n(discoverySize({ population: 200, share: 0.05, ...q }))).toBe(64);
  });

  test('what opening all of them cannot reach is said, with how far it comes', () => {
    const found = discoverySize({ ...search, share: 0.02, detection: 0.7 });
    expect(found.ok).toBe(false);
    expect(found.says.join()).toContain('cannot be reached');
    expect(found.says.join()).toContain('91 %');
  });

  test('a large population is answered at once: 299 of a million at 1 % (≈ ln .05 / ln .99)', () => {
    const million = { population: 1e6, share: 0.01, confidence: 0.95 };
    expect(n(discoverySize({ ...million, detection: 1 }))).toBe(299);
    // A detection of one half is like half the share: ln .05 / ln .995 = 597.6.
    expect(n(discoverySize({ ...million, detection: 0.5 }))).toBe(598);
  });

  test.each([
    [{ share: 0 }, 'The share to be found'],
    [{ detection: 0 }, 'The chance that an opening sees decay'],
    [{ population: -4 }, 'The population is empty'],
  ])('%o is answered in a sentence', (wrong, says) => {
    const found = discoverySize({ ...search, ...wrong });
    expect(found.ok).toBe(false);
    expect(found.says.join()).toContain(says);
  });
});

describe('curves and budgets', () => {
  test('a margin falls and a chance rises with every opening', () => {
    const margins = marginCurve({ ...aim, population: 700 }).map(({ buys }) => buys);
    const chances = discoveryCurve({ ...search, population: 700 }).map(({ buys }) => buys);
    expect(margins).toEqual([...margins].sort((a, b) => b - a));
    expect(chances).toEqual([...chances].sort((a, b) => a - b));
    expect(margins.at(-1)).toBe(0);
    expect(chances.at(-1)).toBe(1);
    expect(discoveryCurve(search, 30).at(-1)!.n).toBe(30);
  });

  test('a budget buys the openings whose cost, with access, it covers, and no more', () => {
    const costs = { opening: 900, repair: 600, access: 4000 };
    const bought = affordable(35_000, costs, 500);
    expect(bought).toMatchObject({ ok: true, n: 20, cost: 34_000 });
    expect(costOf(21, costs)).toBeGreaterThan(35_000);
    expect(affordable(1e9, costs, 500)).toMatchObject({ n: 500 });
    expect(affordable(5000, costs, 500).ok).toBe(false);
    expect(affordable(-1, costs, 500).ok).toBe(false);
    expect(affordable(100, { ...costs, opening: 0, repair: 0 }, 500).ok).toBe(false);
  });
});
