import { describe, expect, test } from 'vitest';
import { chancesBySize, equalChances } from '../../analysis/sample/chances.ts';
import { neighbours } from '../../analysis/sample/nearest.ts';
import { localPivotal } from '../../analysis/sample/pivotal.ts';
import { seeded, shuffled, unit } from '../../analysis/sample/random.ts';
import { defaultRequest } from '../../analysis/sample/request.ts';
import { select } from '../../analysis/sample/select.ts';
import type { Points } from '../../analysis/sample/space.ts';
import { voronoiSpread } from '../../analysis/sample/spread.ts';
import { walls } from './population.ts';
import { fixture, meuse } from './reference.ts';

interface Mean {
  mean: number;
  se: number;
}
interface Reference {
  n: number;
  lpm: Mean;
  lpm_by_size: Mean;
  simple: Mean;
  samples: { selected: number[]; equal: number; bysize: number }[];
}
const reference = fixture<Reference>('balance.json');
const rows = meuse();
const points: Points = {
  n: rows.length,
  dimensions: 2,
  at: Float64Array.from(rows.flatMap(({ x, y }) => [x, y])),
};
const equal = equalChances(rows.length, reference.n);
const bySize = chancesBySize(
  Float64Array.from(rows, ({ zinc }) => zinc),
  reference.n,
);
const identity = (n: number) => Int32Array.from({ length: n }, (_, i) => i);

function meanSpread(chances: Float64Array, draw: () => Int32Array, draws: number): Mean {
  const spreads = Array.from({ length: draws }, () => voronoiSpread(points, chances, draw()));
  const mean = spreads.reduce((sum, x) => sum + x, 0) / draws;
  const variance = spreads.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (draws - 1);
  return { mean, se: Math.sqrt(variance / draws) };
}

const z = (a: Mean, b: Mean): number => Math.abs(a.mean - b.mean) / Math.hypot(a.se, b.se);

describe('the Voronoi measure of balance', () => {
  test('is that of plain loops in R on samples of the meuse places', () => {
    for (const one of reference.samples) {
      const selected = Int32Array.from(one.selected);
      expect(voronoiSpread(points, equal, selected)).toBeCloseTo(one.equal, 10);
      expect(voronoiSpread(points, bySize, selected)).toBeCloseTo(one.bysize, 10);
    }
  });

  test('is 0 where every cell gathers 1, and grows where two neighbours are taken', () => {
    const line: Points = { n: 6, dimensions: 1, at: Float64Array.of(0, 1, 2, 10, 11, 12) };
    const third = equalChances(6, 2);
    expect(voronoiSpread(line, third, Int32Array.of(1, 4))).toBe(0);
    // The first gathers 1 point, the second 5: (1/3 − 1)² and (5/3 − 1)².
    expect(voronoiSpread(line, third, Int32Array.of(0, 1))).toBeCloseTo(4 / 9, 12);
  });

  test('points equally near to two share themselves out', () => {
    const line: Points = { n: 3, dimensions: 1, at: Float64Array.of(0, 1, 2) };
    expect(voronoiSpread(line, equalChances(3, 2), Int32Array.of(0, 2))).toBeCloseTo(0, 12);
  });
});

describe('the local pivotal method', () => {
  test('is as balanced as the same method in R, equal chances and by size (meuse)', () => {
    const random = seeded(17);
    const own = meanSpread(equal, () => localPivotal(points, equal, random), 1500);
    const sized = meanSpread(bySize, () => localPivotal(points, bySize, random), 1500);
    expect(z(own, reference.lpm)).toBeLessThan(4);
    expect(z(sized, reference.lpm_by_size)).toBeLessThan(4);
  });

  test('simple random selection is as unbalanced as in R, and the pivotal one at least 30 % better', () => {
    const random = seeded(18);
    const simple = meanSpread(equal, () => shuffled(random, identity(points.n)).slice(0, 20), 1500);
    expect(z(simple, reference.simple)).toBeLessThan(4);
    const own = meanSpread(equal, () => localPivotal(points, equal, random), 200);
    expect(own.mean).toBeLessThan(0.7 * simple.mean);
  });

  test('takes one of two at the same place when both chances are a half', () => {
    const at = Float64Array.from({ length: 20 }, (_, i) => Math.floor(i / 2));
    const pairs: Points = { n: 20, dimensions: 1, at };
    const taken = localPivotal(pairs, equalChances(20, 10), seeded(2));
    expect(Array.from(taken, (i) => Math.floor(i / 2))).toEqual([...identity(10)]);
  });

  test('chances of 0 and 1 are kept as they are', () => {
    const line: Points = { n: 5, dimensions: 1, at: Float64Array.of(0, 1, 2, 3, 4) };
    const taken = localPivotal(line, Float64Array.of(1, 0, 0.5, 0.5, 0), seeded(3));
    expect(taken).toHaveLength(2);
    expect(taken).toContain(0);
    expect([2, 3]).toContain(taken[1]);
  });

  test('20,000 walls in four dimensions are decided', () => {
    const random = seeded(4);
    const at = Float64Array.from({ length: 80_000 }, () => unit(random));
    const many: Points = { n: 20_000, dimensions: 4, at };
    expect(localPivotal(many, equalChances(20_000, 60), random)).toHaveLength(60);
  });
});

describe('neighbour search', () => {
  test('finds what looking at every point finds, while points leave', () => {
    const random = seeded(6);
    const at = Float64Array.from({ length: 3 * 400 }, () => Math.round(unit(random) * 12));
    const cloud: Points = { n: 400, dimensions: 3, at };
    const search = neighbours(cloud, shuffled(random, identity(400)));
    const here = new Set(identity(400));
    const gap = (a: number, b: number) =>
      [0, 1, 2].reduce((sum, d) => sum + (at[a * 3 + d]! - at[b * 3 + d]!) ** 2, 0);
    for (const leaving of shuffled(random, identity(400)).slice(0, 399)) {
      here.delete(leaving);
      search.remove(leaving);
      const [point] = here;
      const others = [...here].filter((other) => other !== point);
      const found = search.nearest(point!);
      if (others.length === 0) expect(found).toBe(-1);
      else expect(gap(point!, found)).toBe(Math.min(...others.map((other) => gap(point!, other))));
    }
  });
});

describe('balanced selection of walls', () => {
  const population = walls(400, 5);
  const spreadOf = (seed: number, design: 'balanced' | 'simple'): number => {
    const request = { ...defaultRequest, design, openings: 24, seed };
    const drawn = select(population, request);
    const space = select(population, { ...request, design: 'balanced' });
    if (!drawn.ok || !space.ok) throw new Error('no sample');
    const { units, of } = space.selection.chances;
    const place = new Map(Array.from(units, (one, k) => [one, k]));
    const selected = Int32Array.from(drawn.selection.units, (one) => place.get(one.unit)!);
    return voronoiSpread(space.selection.space!, of, selected);
  };
  const mean = (design: 'balanced' | 'simple') =>
    Array.from({ length: 200 }, (_, seed) => spreadOf(seed, design)).reduce((a, b) => a + b) / 200;

  test('is at least 30 % better than simple random selection by the Voronoi measure', () => {
    expect(mean('balanced')).toBeLessThan(0.7 * mean('simple'));
  });

  test('walls without a place, a wetting or an index stand in the middle, and it is said', () => {
    const blank = {
      ...population,
      latitude: population.latitude.map((x, i) => (i < 4 ? Number.NaN : x)),
      wetting: population.wetting.map((x, i) => (i % 7 === 0 ? 0 : x)),
      index: population.index.map((x, i) => (i % 5 === 0 ? Number.NaN : x)),
    };
    const drawn = select(blank, { ...defaultRequest, design: 'balanced', withAzimuth: true });
    if (!drawn.ok) throw new Error(drawn.says.join());
    expect(drawn.says.join()).toContain('4 walls without a place on record');
    expect(drawn.selection.units).toHaveLength(20);
    expect(drawn.selection.space!.dimensions).toBe(6);
    expect([...drawn.selection.space!.at].every(Number.isFinite)).toBe(true);
  });
});
