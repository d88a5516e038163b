import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { earthRadiusKm, haversineKm } from '../../analysis/rain/great-circle.ts';
import { searchOf, treeOf } from '../../analysis/stations/nearest.ts';
import { kmBetween, positions } from '../../analysis/stations/sphere.ts';
import { pointOnSphere } from './scene.ts';

interface Point {
  readonly longitude: number;
  readonly latitude: number;
}

const placed = (points: readonly Point[]) =>
  positions(
    Float64Array.from(points, (p) => p.longitude),
    Float64Array.from(points, (p) => p.latitude),
  );

/** By the haversine formula from `rain/great-circle.ts`, looking at every point. */
function looked(points: readonly Point[], from: Point, most: number, skip = (_: number) => false) {
  return points
    .map((p, id) => ({
      id,
      km: Math.round(haversineKm(from.longitude, from.latitude, p.longitude, p.latitude) * 1e6),
    }))
    .filter(({ id }) => !skip(id))
    .sort((a, b) => a.km - b.km || a.id - b.id)
    .slice(0, most)
    .map(({ id }) => id);
}

describe('distance on the sphere', () => {
  test('from unit vectors it is the haversine distance', () => {
    fc.assert(
      fc.property(pointOnSphere, pointOnSphere, (a, b) => {
        const at = placed([a, b]);
        const km = haversineKm(a.longitude, a.latitude, b.longitude, b.latitude);
        // Near the antipodes both formulas lose digits, as asin does at 1.
        const slack = km > 19_900 ? 0.5 : 1e-8;
        expect(Math.abs(kmBetween(at, 0, at, 1) - km)).toBeLessThan(slack);
      }),
      { seed: 1 },
    );
  });

  test('a quarter turn is a quarter of the great circle, whichever way', () => {
    const at = placed([
      { longitude: 0, latitude: 0 },
      { longitude: 90, latitude: 0 },
      { longitude: 17, latitude: 90 },
      { longitude: -180, latitude: 0 },
    ]);
    const quarter = (earthRadiusKm * Math.PI) / 2;
    expect(kmBetween(at, 0, at, 1)).toBeCloseTo(quarter, 8);
    expect(kmBetween(at, 0, at, 2)).toBeCloseTo(quarter, 8);
    expect(kmBetween(at, 1, at, 2)).toBeCloseTo(quarter, 8);
    expect(kmBetween(at, 0, at, 3)).toBeCloseTo(2 * quarter, 6);
  });
});

describe('the search for neighbours', () => {
  test('finds what looking at every point finds, in the same order', () => {
    fc.assert(
      fc.property(
        fc.array(pointOnSphere, { minLength: 1, maxLength: 300 }),
        pointOnSphere,
        fc.integer({ min: 1, max: 40 }),
        (points, from, most) => {
          const search = searchOf(treeOf(placed(points)), most);
          const found = search.find(placed([from]), 0);
          expect(found).toBe(Math.min(most, points.length));
          expect([...search.ids.subarray(0, found)]).toEqual(looked(points, from, most));
        },
      ),
      { seed: 2 },
    );
  });

  test('crosses the date line and the poles', () => {
    const points = Array.from({ length: 72 }, (_, i) => ({
      longitude: -180 + 5 * i,
      latitude: 80,
    }));
    points.push({ longitude: 179, latitude: 10 }, { longitude: -179, latitude: 10.5 });
    const search = searchOf(treeOf(placed(points)), 3);
    search.find(placed([{ longitude: -179.9, latitude: 10 }]), 0);
    expect([...search.ids.subarray(0, 2)]).toEqual([73, 72]);
    search.find(placed([{ longitude: 1, latitude: 89.9 }]), 0);
    expect([...search.ids]).toEqual(looked(points, { longitude: 1, latitude: 89.9 }, 3));
  });

  test('of points equally far the one of the earlier row comes first, also where not all find room', () => {
    // On a square lattice a place in the middle of a cell has four, then eight neighbours equally far along meridians.
    const points = Array.from({ length: 400 }, (_, i) => ({
      longitude: 10 + (i % 20),
      latitude: -10 + Math.floor(i / 20),
    })).reverse();
    for (const most of [1, 2, 3, 5, 7, 9, 32]) {
      const search = searchOf(treeOf(placed(points)), most);
      const from = { longitude: 19.5, latitude: -0.5 };
      search.find(placed([from]), 0);
      expect([...search.ids]).toEqual(looked(points, from, most));
    }
  });

  test('points of a group are passed over', () => {
    const list = fc.array(pointOnSphere, { minLength: 20, maxLength: 120 });
    fc.assert(
      fc.property(list, fc.integer({ min: 0, max: 4 }), (points, group) => {
        const groups = Int32Array.from(points, (_, i) => i % 5);
        const at = placed(points);
        const search = searchOf(treeOf(at), 10);
        const found = search.find(at, group, groups, group);
        expect([...search.ids.subarray(0, found)]).toEqual(
          looked(points, points[group]!, 10, (id) => id % 5 === group),
        );
      }),
      { seed: 3 },
    );
  });

  test('distances are told in whole millimetres', () => {
    const at = placed([{ longitude: 2.3522, latitude: 48.8566 }]);
    const search = searchOf(treeOf(at), 1);
    search.find(placed([{ longitude: -0.1276, latitude: 51.5072 }]), 0);
    const km = haversineKm(-0.1276, 51.5072, 2.3522, 48.8566);
    expect(search.km[0]).toBe(Math.round(km * 1e6) / 1e6);
  });
});
