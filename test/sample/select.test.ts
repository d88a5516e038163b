import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { defaultRequest, type SelectionRequest } from '../../analysis/sample/request.ts';
import { mustIncludeStratum, select } from '../../analysis/sample/select.ts';
import type { Design, Population, StratumField } from '../../analysis/sample/types.ts';
import { reordered, walls } from './population.ts';

const population = walls(120, 2);

function drawn(changes: Partial<SelectionRequest> = {}, of: Population = population) {
  const found = select(of, { ...defaultRequest, ...changes });
  if (!found.ok) throw new Error(found.says.join());
  return { ...found.selection, says: found.says.join('\n') };
}
const refusal = (changes: Partial<SelectionRequest>, of: Population = population): string => {
  const found = select(of, { ...defaultRequest, ...changes });
  if (found.ok) throw new Error('selected');
  return found.says.join('\n');
};
const designs: readonly Design[] = ['simple', 'stratified', 'pps', 'replicated', 'balanced'];

const anyRequest: fc.Arbitrary<SelectionRequest> = fc.record({
  design: fc.constantFrom(...designs),
  openings: fc.integer({ min: 20, max: 60 }),
  seed: fc.nat(),
  strata: fc.uniqueArray(fc.constantFrom<StratumField>('tier', 'material', 'orientation'), {
    maxLength: 1,
  }),
  allocation: fc.constant({ kind: 'proportional' as const }),
  chances: fc.constantFrom('equal' as const, 'by size' as const),
  replicates: fc.integer({ min: 4, max: 6 }),
  replacementsPerStratum: fc.integer({ min: 0, max: 3 }),
  exclusions: fc.constant([{ id: 'w00007', reason: 'no access' }]),
  mustInclude: fc.constantFrom([], ['w00010', 'w00050']),
  minimumDistanceKm: fc.constant(0),
  withAzimuth: fc.boolean(),
  sizeFloor: fc.constant(0.01),
});

describe('a selection', () => {
  test('is the same whatever the order of the file (property)', () => {
    const orders = fc.shuffledSubarray([...Array(120).keys()], { minLength: 120 });
    fc.assert(
      fc.property(anyRequest, orders, (request, order) => {
        const rows = (of: Population) => drawn(request, of).units.map(({ unit: _, ...row }) => row);
        expect(rows(reordered(population, order))).toEqual(rows(population));
      }),
      { seed: 21, numRuns: 100 },
    );
  });

  test('has the size asked for, of distinct walls, with weights 1/probability that add up to about the frame (property)', () => {
    fc.assert(
      fc.property(anyRequest, (request) => {
        const { units, strata, says } = drawn(request);
        const sample = units.filter(({ replacementOrder }) => replacementOrder === null);
        const short = says.includes(' draws of ') ? request.replicates - 1 : 0;
        expect(sample.length).toBeGreaterThanOrEqual(request.openings - short);
        expect(sample.length).toBeLessThanOrEqual(request.openings);
        const keys = units.map(({ id, replicate }) => `${id} ${replicate}`);
        expect(new Set(keys).size).toBe(keys.length);
        expect(strata.reduce((sum, row) => sum + row.units, 0)).toBe(119);
        expect(strata.reduce((sum, row) => sum + row.openings, 0)).toBe(sample.length);
        for (const { probability, weight, replicate, certainty } of sample) {
          const draws = replicate === null ? 1 : request.replicates;
          expect(weight * probability * draws).toBeCloseTo(1, 12);
          expect(certainty).toBe(probability === 1);
        }
        if (request.design === 'simple' || request.design === 'stratified')
          expect(sample.reduce((sum, one) => sum + one.weight, 0)).toBeCloseTo(119, 8);
      }),
      { seed: 22, numRuns: 150 },
    );
  });

  test('with another seed is another one', () => {
    for (const design of designs) {
      const ids = (seed: number) => drawn({ design, seed }).units.map(({ id }) => id);
      expect(ids(1)).toEqual(ids(1));
      expect(ids(1)).not.toEqual(ids(2));
    }
  });

  test('points to the rows of the population as it was given', () => {
    const turned = reordered(population, [...Array(120).keys()].reverse());
    for (const { unit, id, cluster } of drawn({}, turned).units) {
      expect(turned.id[unit]).toBe(id);
      expect(turned.cluster[unit]).toBe(cluster);
    }
  });

  test('carries places of the space only where it is balanced', () => {
    expect(drawn({ design: 'balanced' }).units.every(({ place }) => place.length === 4)).toBe(true);
    expect(drawn({ design: 'pps' }).units.every(({ place }) => place.length === 0)).toBe(true);
  });
});

describe('excluded and included walls', () => {
  test('excluded walls leave the frame, are counted by reason, and are never drawn', () => {
    const exclusions = ['w00001', 'w00002', 'w00003'].map((id, i) => ({
      id,
      reason: i < 2 ? 'no access' : 'owner declines',
    }));
    const { strata, excluded, units, says } = drawn({ exclusions, openings: 117 });
    expect(strata[0]!.units).toBe(117);
    expect(excluded).toEqual([
      { reason: 'no access', units: 2 },
      { reason: 'owner declines', units: 1 },
    ]);
    expect(units.map(({ id }) => id)).not.toContain('w00001');
    expect(says).toContain('3 walls excluded');
  });

  test('walls to be included are a stratum of their own, certain, and take openings', () => {
    const { units, strata } = drawn({ mustInclude: ['w00100', 'w00004'], openings: 10 });
    expect(units.slice(0, 2)).toMatchObject(
      ['w00004', 'w00100'].map((id) => ({
        id,
        stratum: mustIncludeStratum,
        probability: 1,
        weight: 1,
        certainty: true,
      })),
    );
    expect(units).toHaveLength(10);
    expect(strata).toMatchObject([
      { stratum: mustIncludeStratum, units: 2, openings: 2 },
      { units: 118, openings: 8 },
    ]);
    expect(units[5]!.probability).toBeCloseTo(8 / 118, 12);
  });

  test('an exclusion outweighs a must-include, and unknown names are told', () => {
    const { units, says } = drawn({
      mustInclude: ['w00004', 'nowhere'],
      exclusions: [{ id: 'w00004', reason: 'no access' }],
    });
    expect(units.map(({ id }) => id)).not.toContain('w00004');
    expect(says).toContain('taken as excluded: w00004');
    expect(says).toContain('not in the population: nowhere');
  });

  test('more walls to be included than openings: they are all taken, and it is said', () => {
    const mustInclude = population.id.slice(0, 12);
    const { units, probabilitySample, says } = drawn({ mustInclude, openings: 10 });
    expect(units).toHaveLength(12);
    expect(probabilitySample).toBe(false);
    expect(says).toContain('use up all openings');
  });
});

describe('replacements', () => {
  test('are drawn in each stratum after the sample, in order, without a chance of their own', () => {
    const request = { design: 'stratified', strata: ['material'] } as const;
    const { units, strata } = drawn({ ...request, replacementsPerStratum: 3 });
    const spare = units.filter(({ replacementOrder }) => replacementOrder !== null);
    expect(spare.map(({ stratum, replacementOrder }) => [stratum, replacementOrder])).toEqual(
      strata.flatMap(({ stratum }) => [1, 2, 3].map((order) => [stratum, order])),
    );
    expect(spare.every(({ probability }) => Number.isNaN(probability))).toBe(true);
  });

  test('never change the sample, however many are asked', () => {
    for (const design of designs) {
      const sample = (replacementsPerStratum: number) =>
        drawn({ design, strata: ['tier'], replacementsPerStratum }).units.slice(0, 20);
      expect(sample(5)).toEqual(sample(0));
    }
  });

  test('are as many as there are walls left, and it is said', () => {
    const { units, says } = drawn({ openings: 118, replacementsPerStratum: 5 });
    expect(units).toHaveLength(120);
    expect(says).toContain('Only 2 replacements of 5');
  });
});

describe('replicated draws', () => {
  test('are of equal size, each without repeats, and what does not divide is left out', () => {
    const { units, says } = drawn({ design: 'replicated', openings: 23, replicates: 5 });
    const drawnUnits = units.filter(({ certainty }) => !certainty);
    const counts = [1, 2, 3, 4, 5].map((r) =>
      drawnUnits.filter(({ replicate }) => replicate === r),
    );
    expect(new Set(counts.map((draw) => draw.length)).size).toBe(1);
    for (const draw of counts) expect(new Set(draw.map(({ id }) => id)).size).toBe(draw.length);
    expect(says).toContain('5 draws of');
  });

  test('fewer than four, or more than there are openings, are answered in a sentence', () => {
    expect(refusal({ design: 'replicated', replicates: 3 })).toContain('4 or more');
    expect(refusal({ design: 'replicated', openings: 3 })).toContain('independent draws');
  });
});

describe('what a user may give', () => {
  test('more openings than walls: all are selected, each with chance 1', () => {
    for (const design of designs) {
      const { units, says } = drawn({ design, openings: 500 });
      expect(new Set(units.map(({ id }) => id)).size).toBe(120);
      expect(units.every(({ probability }) => probability === 1)).toBe(true);
      expect(says).toContain('more than the 120 walls of the frame');
    }
  });

  test('a population of one wall is answered by that wall', () => {
    for (const design of designs) {
      const { units } = drawn({ design, openings: 1, strata: ['tier'] }, walls(1));
      expect(units).toMatchObject([{ id: 'w00000', probability: 1, certainty: true }]);
    }
  });

  test('an empty population, or one of which all is excluded, is answered in a sentence', () => {
    expect(refusal({}, walls(0))).toContain('The population is empty');
    expect(refusal({ exclusions: [{ id: 'w00000', reason: 'x' }] }, walls(1))).toContain(
      'Every wall is excluded',
    );
  });

  test('the same id twice is answered in a sentence', () => {
    const twice = reordered(population, [0, 1, 2, 1]);
    expect(refusal({}, twice)).toContain('w00001 stands in the population more than once');
  });

  test.each([
    [{ openings: 0 }, 'number of openings'],
    [{ openings: 2.5 }, 'number of openings'],
    [{ openings: -3 }, 'number of openings'],
    [{ seed: -1 }, 'seed must be'],
    [{ seed: 1.5 }, 'seed must be'],
    [{ replacementsPerStratum: -1 }, 'number of replacements'],
    [{ minimumDistanceKm: Number.NaN }, 'minimum distance'],
    [{ design: 'pps', sizeFloor: 0 }, 'size given to units without one'],
    [{ design: 'stratified', strata: ['material'], openings: 2 }, 'cannot reach 3 strata'],
  ] as const)('%o is answered in a sentence', (changes, says) => {
    expect(refusal(changes)).toContain(says);
  });

  test('negative sizes are answered in a sentence that names the wall', () => {
    const negative = { ...population, areaM2: population.areaM2.with(5, -4) };
    expect(refusal({ design: 'pps' }, negative)).toContain(
      'The wall w00005 has a wetting or an area below 0',
    );
  });

  test('walls without a size are drawn as if of the stated share of the mean, and counted', () => {
    const blank = { ...population, wetting: population.wetting.with(5, 0).with(6, Number.NaN) };
    const { says, chances } = drawn({ design: 'pps' }, blank);
    expect(says).toContain(
      '2 walls without a size (wetting × area) drawn as if of 1 % of the mean size',
    );
    const mean = 20 / 118;
    expect(chances.of[5]!).toBeCloseTo(chances.of[6]!, 12);
    expect(chances.of[5]! / mean).toBeGreaterThan(0.009);
    expect(chances.of[5]! / mean).toBeLessThan(0.02);
  });

  test('a stratum with one wall is merged, and the table names it', () => {
    const one = { ...population, material: population.material.with(0, 'vinyl') };
    const { merged, says } = drawn({ design: 'stratified', strata: ['material'] }, one);
    expect(merged).toHaveLength(1);
    expect(merged[0]).toContain('vinyl');
    expect(says).toContain('are taken as one');
  });

  test('a stratum by hand without openings leaves no probability sample', () => {
    const { probabilitySample, units } = drawn({
      design: 'stratified',
      strata: ['material'],
      allocation: { kind: 'by hand', openings: { stucco: 4, eifs: 3 } },
    });
    expect(units).toHaveLength(7);
    expect(probabilitySample).toBe(false);
  });

  test('strata of a design that does not divide are left out, and it is said', () => {
    const { strata, says } = drawn({ design: 'simple', strata: ['tier'] });
    expect(strata).toHaveLength(1);
    expect(says).toContain('no strata are made');
  });
});
