import { describe, expect, test } from 'vitest';
import { drawer } from '../../analysis/sample/draw.ts';
import { estimateChances, withEstimatedChances } from '../../analysis/sample/estimate.ts';
import { prepare } from '../../analysis/sample/prepare.ts';
import { seeded } from '../../analysis/sample/random.ts';
import { defaultRequest, type SelectionRequest } from '../../analysis/sample/request.ts';
import { select } from '../../analysis/sample/select.ts';
import { systematic } from '../../analysis/sample/systematic.ts';
import { reordered, walls } from './population.ts';
import { fixture } from './reference.ts';

const draws = 10_000;
const population = walls(48, 9);
/** A few large walls are certain. */
const skewed = {
  ...population,
  areaM2: population.areaM2.map((area, i) => (i % 16 === 3 ? 30 * area : area)),
};

/** Stated chance of each wall to be taken at all, and how often it was. */
function simulated(request: SelectionRequest) {
  const prepared = prepare(skewed, request);
  if (!prepared.ok) throw new Error(prepared.says.join());
  const draw = drawer(prepared.ready);
  const random = seeded(request.seed);
  const counts = new Float64Array(skewed.n);
  const taken: number[] = [];
  for (let k = 0; k < draws; k += 1) {
    const units = draw(random).map(({ unit }) => unit);
    taken.push(units.length);
    for (const unit of new Set(units)) counts[unit]! += 1;
  }
  const chance = new Float64Array(skewed.n);
  for (const { members, chances } of prepared.ready.strata) {
    members.forEach((unit, k) => {
      const one = chances[k]!;
      const together = 1 - (1 - one) ** request.replicates;
      chance[unit] = request.design === 'replicated' ? together : one;
    });
  }
  return { counts, chance, taken };
}

const designs: readonly [name: string, request: Partial<SelectionRequest>][] = [
  ['simple', { design: 'simple' }],
  ['stratified, proportional', { design: 'stratified', strata: ['material'] }],
  [
    'stratified, Neyman',
    {
      design: 'stratified',
      strata: ['tier'],
      allocation: { kind: 'neyman', shares: { 'First look': 0.5, 'Keep watch': 0.05 } },
    },
  ],
  ['by size', { design: 'pps' }],
  ['by size in strata', { design: 'pps', strata: ['material'] }],
  ['replicated', { design: 'replicated', openings: 15 }],
  ['balanced', { design: 'balanced' }],
  [
    'balanced by size in strata',
    { design: 'balanced', chances: 'by size', strata: ['material'], withAzimuth: true },
  ],
];

describe('every wall is taken as often as its stated chance', () => {
  test.each(designs)('%s: within binomial error over 10,000 draws', (_, changes) => {
    const request = { ...defaultRequest, openings: 12, seed: 77, ...changes };
    const { counts, chance, taken } = simulated(request);
    let chi2 = 0;
    let open = 0;
    counts.forEach((count, unit) => {
      const p = chance[unit]!;
      if (p === 0 || p === 1) {
        expect(count).toBe(p * draws);
        return;
      }
      const z = (count - draws * p) / Math.sqrt(draws * p * (1 - p));
      expect(Math.abs(z), `${unit}`).toBeLessThan(4);
      chi2 += z * z;
      open += 1;
    });
    // The mean of z² is about 1 where the chances are right.
    expect(open).toBeGreaterThan(30);
    expect(chi2 / open).toBeGreaterThan(0.4);
    expect(chi2 / open).toBeLessThan(1.7);
    expect(new Set(taken).size).toBe(1);
  });

  test('some of these designs have certain walls, so that the case is tried', () => {
    const { chance } = simulated({ ...defaultRequest, design: 'pps', openings: 12 });
    expect(chance.filter((p) => p === 1).length).toBeGreaterThan(0);
  });
});

test('pairs are taken together as often as UPsystematicpi2 of R says, over all orders', () => {
  interface Reference {
    systematic: { chance: number[]; joint: number[][] };
  }
  const { chance, joint } = fixture<Reference>('sample.json').systematic;
  const random = seeded(12);
  const together = chance.map(() => chance.map(() => 0));
  for (let k = 0; k < 20_000; k += 1) {
    const taken = systematic(Float64Array.from(chance), 3, random);
    for (const a of taken) for (const b of taken) together[a]![b]! += 1;
  }
  joint.forEach((row, a) => {
    row.forEach((p, b) => {
      const z = (together[a]![b]! - 20_000 * p) / Math.sqrt(20_000 * p * (1 - p));
      expect(Math.abs(z), `${a} ${b}`).toBeLessThan(4);
    });
  });
});

describe('a minimum distance', () => {
  const request: SelectionRequest = {
    ...defaultRequest,
    openings: 6,
    minimumDistanceKm: 12,
    seed: 4,
    replacementsPerStratum: 2,
  };
  const drawn = select(population, request);
  if (!drawn.ok) throw new Error(drawn.says.join());
  const { selection } = drawn;

  test('is kept between all selected walls, by the haversine formula', async () => {
    const { haversineKm } = await import('../../analysis/rain/great-circle.ts');
    const { latitude, longitude } = population;
    const units = selection.units.map(({ unit }) => unit);
    for (const a of units) {
      for (const b of units) {
        const km = haversineKm(longitude[a]!, latitude[a]!, longitude[b]!, latitude[b]!);
        if (a !== b) expect(km).toBeGreaterThan(11.98);
      }
    }
  });

  test('makes it no probability sample, and no wall carries a chance', () => {
    expect(selection.probabilitySample).toBe(false);
    expect(drawn.says.join()).toContain('Not a probability sample');
    expect(
      selection.units.every(({ probability, weight }) => Number.isNaN(probability + weight)),
    ).toBe(true);
  });

  test('fewer than 10,000 redraws are refused', () => {
    expect(estimateChances(population, request, 9_999)).toMatchObject({ ok: false });
  });

  test('estimated chances add up to the openings, and stand in the rows', () => {
    const estimate = estimateChances(population, request);
    if (!estimate.ok) throw new Error(estimate.says.join());
    expect(estimate.chances.reduce((sum, p) => sum + p, 0)).toBeCloseTo(6, 9);
    const { selection: now, says } = withEstimatedChances(selection, estimate);
    expect(now.probabilitySample).toBe(true);
    expect(says.join()).toContain('10,000 redraws');
    for (const one of now.units) {
      if (one.replacementOrder === null) {
        expect(one.probability).toBe(estimate.chances[one.unit]);
        expect(one.weight).toBeCloseTo(1 / one.probability, 12);
      } else expect(one.probability).toBeNaN();
    }
  });

  test('of three walls in a row, of which only the outer two go together: 2/3, 1/3, 2/3, by hand', () => {
    const row = {
      ...reordered(population, [0, 1, 2]),
      latitude: Float64Array.of(47, 47.05, 47.1),
      longitude: Float64Array.of(-123, -123, -123),
    };
    const estimate = estimateChances(row, { ...request, openings: 2, minimumDistanceKm: 8 });
    if (!estimate.ok) throw new Error(estimate.says.join());
    [2 / 3, 1 / 3, 2 / 3].forEach((p, i) => {
      const error = 4 * Math.sqrt((p * (1 - p)) / draws);
      expect(Math.abs(estimate.chances[i]! - p)).toBeLessThan(error);
    });
  });

  test('that leaves no room gives fewer walls, and says so', () => {
    const wide = select(population, { ...request, minimumDistanceKm: 90 });
    if (!wide.ok) throw new Error(wide.says.join());
    expect(wide.selection.units.filter((one) => one.replacementOrder === null).length).toBeLessThan(
      6,
    );
    expect(wide.says.join()).toContain('of 6 openings keep 90 km');
  });

  test('is refused where the design cannot keep it', () => {
    const found = select(population, { ...request, design: 'balanced' });
    expect(found.ok).toBe(false);
    expect(found.says.join()).toContain('simple and stratified');
  });
});
