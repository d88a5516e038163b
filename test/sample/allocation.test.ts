import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { allocate, neymanShares } from '../../analysis/sample/allocate.ts';
import { chancesBySize } from '../../analysis/sample/chances.ts';
import { strataTable, stratify } from '../../analysis/sample/strata.ts';
import type { StratumField } from '../../analysis/sample/types.ts';
import { reordered, walls } from './population.ts';
import { fixture } from './reference.ts';

const of = (...units: number[]) => units.map((n, h) => ({ stratum: 'abcdefgh'[h]!, units: n }));
const sizes = (found: ReturnType<typeof allocate>) => (found.ok ? found.sizes : found.says);
const proportional = { kind: 'proportional' } as const;

describe('inclusion probabilities by size', () => {
  interface Reference {
    inclusion: { sizes: number[]; n: number; chance: number[] }[];
  }

  test('are those of R sampling::inclusionprobabilities, certain units among them', () => {
    for (const one of fixture<Reference>('sample.json').inclusion) {
      const found = chancesBySize(Float64Array.from(one.sizes), one.n);
      found.forEach((chance, i) => {
        expect(chance).toBeCloseTo(one.chance[i]!, 12);
      });
    }
  });

  test('100 10 8 6 4 2, n = 3: 1, 2/3, 8/15, 2/5, 4/15, 2/15', () => {
    const found = chancesBySize(Float64Array.of(100, 10, 8, 6, 4, 2), 3);
    const published = [1, 0.6667, 0.5333, 0.4, 0.2667, 0.1333];
    found.forEach((chance, i) => {
      expect(chance).toBeCloseTo(published[i]!, 4);
    });
  });

  test('lie in 0 … 1 and add up to n (property)', () => {
    const many = fc.array(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), {
      minLength: 1,
      maxLength: 60,
    });
    fc.assert(
      fc.property(many, fc.double({ min: 0, max: 1, noNaN: true }), (all, share) => {
        const n = Math.round(share * all.length);
        const chances = chancesBySize(Float64Array.from(all), n);
        expect(chances.every((chance) => chance >= 0 && chance <= 1)).toBe(true);
        expect(chances.reduce((sum, x) => sum + x, 0)).toBeCloseTo(n, 8);
      }),
      { seed: 5, numRuns: 300 },
    );
  });
});

describe('openings of the strata', () => {
  test('Neyman, N 500 300 200, shares .1 .3 .5, n 100: 38.71, 35.48, 25.81, by hand', () => {
    const shares = { a: 0.1, b: 0.3, c: 0.5 };
    const raw = neymanShares(100, of(500, 300, 200), shares);
    [38.71, 35.48, 25.81].forEach((x, h) => {
      expect(raw[h]).toBeCloseTo(x, 2);
    });
    expect(sizes(allocate(100, of(500, 300, 200), { kind: 'neyman', shares }))).toEqual([
      39, 35, 26,
    ]);
  });

  test('in proportion, the largest remainders are rounded up', () => {
    // 10 × .47, .33, .20 = 4.7, 3.3, 2.0.
    expect(sizes(allocate(10, of(47, 33, 20), proportional))).toEqual([5, 3, 2]);
  });

  test('two openings where possible, else one, and that is said', () => {
    expect(sizes(allocate(10, of(960, 20, 20), proportional))).toEqual([6, 2, 2]);
    const scarce = allocate(4, of(960, 20, 20), proportional);
    expect(sizes(scarce)).toEqual([2, 1, 1]);
    expect(scarce.says.join()).toContain('single one');
  });

  test('a stratum with one wall gets one opening', () => {
    expect(sizes(allocate(10, of(98, 1), proportional))).toEqual([9, 1]);
  });

  test('no stratum gets more openings than it has walls: the rest goes to the others', () => {
    const shares = { a: 0.5, b: 0.01 };
    expect(sizes(allocate(40, of(10, 90), { kind: 'neyman', shares }))).toEqual([10, 30]);
  });

  test('expected shares of 0 and 1 only leave nothing to go by: in proportion, and it is said', () => {
    const found = allocate(10, of(60, 40), { kind: 'neyman', shares: { a: 0, b: 1 } });
    expect(sizes(found)).toEqual([6, 4]);
    expect(found.says.join()).toContain('in proportion');
  });

  test('by hand, more than a stratum has is cut and none is said to say nothing', () => {
    const found = allocate(0, of(5, 40, 9), { kind: 'by hand', openings: { a: 8, b: 3 } });
    expect(sizes(found)).toEqual([5, 3, 0]);
    expect(found.says.join()).toContain('all are selected');
    expect(found.says.join()).toContain('Stratum c has no opening');
  });

  test.each([
    [{ kind: 'by hand', openings: { z: 1 } }, 'no stratum named z'],
    [{ kind: 'by hand', openings: { a: -1 } }, 'not a whole number'],
    [{ kind: 'by hand', openings: {} }, 'at least one'],
    [{ kind: 'neyman', shares: { a: 1.2 } }, 'between 0 and 100 %'],
  ] as const)('%o is answered in a sentence', (allocation, says) => {
    const found = allocate(10, of(50, 50), allocation);
    expect(found.ok).toBe(false);
    expect(found.says.join()).toContain(says);
  });

  test('fewer openings than strata are answered in a sentence', () => {
    expect(allocate(2, of(5, 5, 5), proportional)).toMatchObject({ ok: false });
  });

  test('add up to n, none above its walls, none of them left out (property)', () => {
    const strata = fc.array(fc.integer({ min: 1, max: 500 }), { minLength: 1, maxLength: 8 });
    const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), {
      minLength: 8,
      maxLength: 8,
    });
    fc.assert(
      fc.property(strata, shares, fc.double({ min: 0, max: 1, noNaN: true }), (units, p, share) => {
        const all = units.reduce((sum, n) => sum + n, 0);
        const n = units.length + Math.round(share * (all - units.length));
        const named = Object.fromEntries(p.map((x, h) => ['abcdefgh'[h]!, x]));
        for (const allocation of [proportional, { kind: 'neyman', shares: named } as const]) {
          const found = allocate(n, of(...units), allocation);
          if (!found.ok) throw new Error(found.says.join());
          expect(found.sizes.reduce((sum, x) => sum + x, 0)).toBe(n);
          found.sizes.forEach((x, h) => {
            expect(x).toBeGreaterThanOrEqual(1);
            expect(x).toBeLessThanOrEqual(units[h]!);
          });
        }
      }),
      { seed: 6, numRuns: 300 },
    );
  });
});

describe('strata', () => {
  const population = walls(240, 3);
  const all = Int32Array.from({ length: 240 }, (_, i) => i);

  test('hold every wall once, whatever the mix of fields (property)', () => {
    const fields = fc.uniqueArray(
      fc.constantFrom<StratumField>('tier', 'material', 'era', 'orientation', 'height'),
    );
    fc.assert(
      fc.property(fields, (chosen) => {
        const strata = stratify(population, all, chosen);
        const members = strata.members.flatMap((list) => [...list]).sort((a, b) => a - b);
        expect(members).toEqual([...all]);
        expect(new Set(strata.names).size).toBe(strata.names.length);
        for (const list of strata.members) expect(list.length).toBeGreaterThanOrEqual(2);
      }),
      { seed: 7, numRuns: 60 },
    );
  });

  test('stand in the order of their levels, and the table adds up', () => {
    const rows = strataTable(stratify(population, all, ['tier']), population);
    expect(rows.map(({ stratum }) => stratum)).toEqual([
      'First look',
      'Next look',
      'Keep watch',
      'No flag',
    ]);
    const area = population.areaM2.reduce((sum, x) => sum + x, 0);
    expect(rows.reduce((sum, row) => sum + row.units, 0)).toBe(240);
    expect(rows.reduce((sum, row) => sum + row.areaM2, 0)).toBeCloseTo(area, 6);
    expect(rows[0]!.meanIndex).toBeGreaterThanOrEqual(40);
    expect(rows[3]!.meanIndex).toBeLessThan(8);
  });

  test('one wall alone joins the nearest level of the field named last, and the names tell', () => {
    const few = {
      ...reordered(population, [0, 1, 2, 3, 4, 5, 6]),
      material: ['stucco', 'stucco', 'stucco', 'eifs', 'eifs', 'eifs', 'eifs'],
      heightM: Float64Array.of(5, 6, 55, 5, 6, 12, 13),
    };
    const strata = stratify(few, all.slice(0, 7), ['material', 'height']);
    expect(strata.names).toEqual([
      'eifs, below 10 m',
      'eifs, 10-15 m',
      'stucco, below 10 m + stucco, from 50 m',
    ]);
    expect(strata.merged).toEqual([['stucco, below 10 m', 'stucco, from 50 m']]);
  });

  test('blanks make a stratum of their own, named so', () => {
    const blank = {
      ...population,
      material: population.material.map((name, i) => (i < 9 ? null : name)),
      azimuthDeg: population.azimuthDeg.map((x, i) => (i < 9 ? Number.NaN : x)),
    };
    expect(stratify(blank, all, ['material']).names.at(-1)).toBe('material not on record');
    expect(stratify(blank, all, ['orientation']).names).toEqual([
      'faces north',
      'faces east',
      'faces south',
      'faces west',
      'orientation not on record',
    ]);
  });

  test('a wall belongs to the side that it faces within 45°', () => {
    const azimuths = [0, 44, 45, 134, 135, 224, 225, 314, 315, 360, -10];
    const turned = {
      ...reordered(
        population,
        azimuths.map((_, i) => i),
      ),
      azimuthDeg: Float64Array.from(azimuths),
    };
    const strata = stratify(turned, all.slice(0, azimuths.length), ['orientation']);
    expect(strata.members.map((list) => [...list])).toEqual([
      [0, 1, 8, 9, 10],
      [2, 3],
      [4, 5],
      [6, 7],
    ]);
  });

  test('have the same figures whatever the order of the file', () => {
    const order = [...all].reverse();
    const turned = reordered(population, order);
    const table = strataTable(stratify(population, all, ['tier', 'era']), population);
    expect(strataTable(stratify(turned, all, ['tier', 'era']), turned)).toEqual(table);
  });
});
