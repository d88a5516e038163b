import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { earthRadiusKm, haversineKm } from '../../analysis/rain/great-circle.ts';
import type { RainGrid } from '../../analysis/rain/grid.ts';
import {
  type NodeShares,
  nodesAt,
  type SamplingLimits,
  sampleGrid,
} from '../../analysis/rain/sample.ts';
import { gridOf } from './grids.ts';

/** One point's sample as plain values. */
function at(grid: RainGrid, longitude: number, latitude: number, limits?: SamplingLimits) {
  const sample = sampleGrid(grid, Float64Array.of(longitude), Float64Array.of(latitude), limits);
  const { node, weight } = nodesAt(grid, longitude, latitude, limits);
  return {
    mm: sample.mm[0]!,
    node: [...node],
    weight: [...weight],
    distanceKm: sample.distanceKm[0]!,
    steep: sample.steep[0],
  };
}

const value = fc.oneof(
  { weight: 3, arbitrary: fc.integer({ min: 0, max: 4000 }) },
  { weight: 1, arbitrary: fc.constant(null) },
);
const rows = (width: number, height: number) =>
  fc.array(fc.array(value, { minLength: width, maxLength: width }), {
    minLength: height,
    maxLength: height,
  });
const degrees = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const settings = { seed: 20, numRuns: 500 };

/** Equal to the last published digit, and missing together. */
function same(a: number, b: number) {
  if (Number.isNaN(b)) expect(a).toBeNaN();
  else expect(Math.abs(a - b)).toBeLessThan(1.1e-4);
}

const valuesOf = (
  grid: RainGrid,
  { node }: Pick<NodeShares, 'node'> | { node: number[] },
): number[] => [...node].filter((node) => node >= 0).map((node) => grid.mm[node]!);

describe('between the nodes', () => {
  test('rain lies between the least and the greatest of its nodes, and the weights sum to 1', () => {
    fc.assert(
      fc.property(rows(6, 5), degrees(-101, -94), degrees(45, 51), (values, x, y) => {
        const grid = gridOf(values);
        const sample = at(grid, x, y);
        const { mm } = sample;
        const used = valuesOf(grid, sample);
        if (Number.isNaN(mm)) return used.length === 0 && sample.weight.every((w) => w === 0);
        expect(sample.weight.reduce((a, b) => a + b)).toBeCloseTo(1, 12);
        return mm >= Math.min(...used) - 5e-5 && mm <= Math.max(...used) + 5e-5;
      }),
      settings,
    );
  });

  test('rain is the weighted sum of the nodes it names, so that it can be recomputed by hand', () => {
    fc.assert(
      fc.property(rows(6, 5), degrees(-101, -94), degrees(45, 51), (values, x, y) => {
        const grid = gridOf(values);
        const { mm, node, weight } = at(grid, x, y);
        if (Number.isNaN(mm)) return true;
        const sum = node.reduce((s, id, k) => (id < 0 ? s : s + weight[k]! * grid.mm[id]!), 0);
        return Math.abs(sum - mm) < 5.1e-5;
      }),
      settings,
    );
  });

  test('a plane is reproduced', () => {
    const plane = (x: number, y: number) => 2000 + 16 * x - 8 * y;
    const grid = gridOf(
      Array.from({ length: 9 }, (_, r) =>
        Array.from({ length: 13 }, (_, c) => plane(-100 + c / 4, 50 - r / 4)),
      ),
      { stepX: 0.25, stepY: -0.25 },
    );
    fc.assert(
      fc.property(degrees(-100, -97), degrees(48, 50), (x, y) => {
        expect(at(grid, x, y).mm).toBeCloseTo(plane(x, y), 3.9);
      }),
      settings,
    );
  });

  test('a grid given from south to north says the same', () => {
    fc.assert(
      fc.property(rows(6, 5), degrees(-100, -95), degrees(46, 50), (values, x, y) => {
        const turned = gridOf(values.toReversed(), { north: 46, stepY: 1 });
        same(at(turned, x, y).mm, at(gridOf(values), x, y).mm);
      }),
      settings,
    );
  });

  test('at a node with data rain is that node’s, at the corners of the grid too', () => {
    const grid = gridOf([
      [100, 200, 300],
      [400, 500, 600],
      [700, 800, 900],
    ]);
    const read = [
      [-100, 50],
      [-98, 50],
      [-99, 49],
      [-100, 48],
      [-98, 48],
    ].map(([x, y]) => at(grid, x!, y!).mm);
    expect(read).toEqual([100, 300, 500, 700, 900]);
  });

  test('a tenth of a degree that binary cannot hold is still on its node', () => {
    const grid = gridOf(
      [
        [1, null, 1],
        [1, 7, 1],
        [1, null, 1],
      ],
      { west: -123.1, north: 45.3, stepX: 0.1, stepY: -0.1 },
    );
    expect(at(grid, -123, 45.2)).toMatchObject({ mm: 7, distanceKm: Number.NaN });
  });

  test('rain is rounded to 1e-4 mm', () => {
    const grid = gridOf([
      [1, 2],
      [1, 2],
    ]);
    expect(at(grid, -100 + 1 / 3, 49.5).mm).toBe(1.3333);
  });
});

describe('beside missing nodes', () => {
  test('missing nodes are left out and the other weights grow in proportion', () => {
    const read = at(
      gridOf([
        [100, null],
        [300, 400],
      ]),
      -99.75,
      49.75,
    );
    // Weights .5625, .1875, .1875, .0625 without the second: by hand.
    expect(read.node).toEqual([0, -1, 2, 3]);
    expect(read.weight).toEqual([0.5625 / 0.8125, 0, 0.1875 / 0.8125, 0.0625 / 0.8125]);
    expect(read.mm).toBe(Math.round(((56.25 + 56.25 + 25) / 0.8125) * 1e4) / 1e4);
  });

  test('without any data around it a place takes the nearest node within 150 km and says how far', () => {
    const grid = gridOf([
      [null, null, 900],
      [null, null, 800],
    ]);
    const read = at(grid, -99.25, 50);
    // One and a quarter degrees along 50° N: by hand 2 R asin(cos 50° sin 0.625°) = 89.3 km.
    expect(read).toEqual({
      mm: 900,
      node: [2, -1, -1, -1],
      weight: [1, 0, 0, 0],
      distanceKm: 89.3,
      steep: 0,
    });
  });

  test('on a missing node itself the nearest node stands in', () => {
    const grid = gridOf([
      [500, 600, 700],
      [500, null, 700],
      [500, 600, 700],
    ]);
    // By hand 2 R asin(cos 49° sin 0.5°) = 72.95 km.
    expect(at(grid, -99, 49)).toMatchObject({ mm: 500, distanceKm: 73 });
  });

  test('farther than 150 km from any data there is no rain, and never 0', () => {
    const grid = gridOf([
      [null, null, null, 900],
      [null, null, null, 800],
    ]);
    const read = at(grid, -99.9, 49.5);
    expect(read).toEqual({
      mm: Number.NaN,
      node: [-1, -1, -1, -1],
      weight: [0, 0, 0, 0],
      distanceKm: Number.NaN,
      steep: 0,
    });
  });

  test('the reach is a setting', () => {
    const grid = gridOf([
      [null, null, 900],
      [null, null, 800],
    ]);
    expect(at(grid, -99.25, 50, { reachKm: 89.2, steepRatio: 1.5 }).mm).toBeNaN();
    expect(at(grid, -99.25, 50, { reachKm: 89.4, steepRatio: 1.5 }).mm).toBe(900);
  });

  test('two nodes equally far: the first in the order of the grid stands in', () => {
    const grid = gridOf([
      [null, null, null],
      [500, null, 700],
      [null, null, null],
    ]);
    expect(at(grid, -99, 49)).toMatchObject({ mm: 500, node: [3, -1, -1, -1] });
  });

  test('the nearest node is the one that looking at every node finds', () => {
    const sparse = fc.array(fc.tuple(fc.nat(11), fc.nat(9), fc.integer({ min: 1, max: 4000 })), {
      maxLength: 6,
    });
    const where = fc.record({
      west: fc.integer({ min: -180, max: 179 }),
      north: fc.integer({ min: -75, max: 89 }),
      step: fc.constantFrom(0.25, 0.5, 1),
      x: degrees(-2, 14),
      y: degrees(-2, 12),
    });
    fc.assert(
      fc.property(sparse, where, (nodes, { west, north, step, x, y }) => {
        const values: (number | null)[][] = Array.from({ length: 10 }, () =>
          Array.from({ length: 12 }, () => null),
        );
        for (const [c, r, mm] of nodes) values[r]![c] = mm;
        const grid = gridOf(values, { west, north, stepX: step, stepY: -step });
        const longitude = west + x * step;
        const latitude = Math.max(-90, Math.min(90, north - y * step));
        const read = at(grid, longitude, latitude);
        if (Number.isNaN(read.distanceKm) && !Number.isNaN(read.mm)) return;
        const all = [...grid.mm.keys()]
          .filter((node) => !Number.isNaN(grid.mm[node]!))
          .map((node) => {
            const km = haversineKm(
              longitude,
              latitude,
              west + (node % 12) * step,
              north - Math.floor(node / 12) * step,
            );
            return { node, km: Math.round(km * 1e6) / 1e6 };
          })
          .filter(({ km }) => km <= 150)
          .sort((a, b) => a.km - b.km || a.node - b.node);
        expect(read.node[0]).toBe(all[0]?.node ?? -1);
        if (all[0]) expect(read.distanceKm).toBe(Math.round(all[0].km * 10) / 10);
      }),
      settings,
    );
  });
});

describe('around the globe', () => {
  const columns = 36;
  const global = (values: readonly (readonly (number | null)[])[]) =>
    gridOf(values, { west: -180, north: 20, stepX: 10, stepY: -10, wrapsLongitude: true });

  test('the date line is a seam that cannot be seen: turning the grid changes nothing', () => {
    fc.assert(
      fc.property(
        rows(columns, 3),
        degrees(-180, 180),
        degrees(0, 20),
        fc.nat(columns - 1),
        (values, x, y, by) => {
          const turned = values.map((row) => [...row.slice(by), ...row.slice(0, by)]);
          const here = at(global(values), x, y);
          const there = at(global(turned), x - 10 * by, y);
          same(there.mm, here.mm);
          expect(there.steep).toBe(here.steep);
        },
      ),
      settings,
    );
  });

  test('between the last and the first column rain is half of each', () => {
    const row = Array.from({ length: columns }, (_, c) =>
      c === 0 ? 100 : c === columns - 1 ? 300 : 5,
    );
    expect([175, -185, 535].map((x) => at(global([row, row]), x, 15).mm)).toEqual([200, 200, 200]);
  });

  test('180° E and 180° W are one meridian', () => {
    const row = Array.from({ length: columns }, (_, c) => 10 * c);
    expect(at(global([row, row]), 180, 12)).toEqual(at(global([row, row]), -180, 12));
  });

  test('the nearest node may lie across the date line', () => {
    const row = Array.from({ length: columns }, (_, c) => (c === 0 ? 700 : null));
    const grid = { ...global([row, row]), north: 60, stepY: -0.5 };
    // 0.4° short of the date line, on 60° N, is in a cell whose other nodes are missing: its one node is enough.
    expect(at(grid, 179.6, 60)).toMatchObject({ mm: 700, distanceKm: Number.NaN });
    expect(at(grid, 179.6, 60.4)).toMatchObject({ mm: 700, distanceKm: 49.7 });
  });

  test('a region given in 0 to 360 serves longitudes to −180', () => {
    const grid = gridOf(
      [
        [100, 200],
        [100, 200],
      ],
      { west: 260, north: 50 },
    );
    expect(at(grid, -99.5, 49.5).mm).toBe(150);
  });
});

describe('outside the nodes', () => {
  const grid = gridOf([
    [100, 200],
    [300, 400],
  ]);

  test('outside a region the nearest node stands in, by however little', () => {
    // A hundredth of a degree: of latitude 1.1 km, of longitude on 50° N 0.7 km.
    expect(at(grid, -100, 50.01)).toMatchObject({ mm: 100, distanceKm: 1.1 });
    expect(at(grid, -98.99, 50)).toMatchObject({ mm: 200, distanceKm: 0.7 });
    expect(at(grid, -100, 48.5)).toMatchObject({ mm: 300, distanceKm: 55.6 });
  });

  test('beyond its reach a region says nothing', () => {
    expect(at(grid, -100, 52).mm).toBeNaN();
    expect(at(grid, 80, 49.5).mm).toBeNaN();
  });

  test('near the pole every meridian is near', () => {
    const row = Array.from({ length: 36 }, (_, c) => (c === 0 ? 40 : null));
    const polar = gridOf([row, row], {
      west: -180,
      north: 89.5,
      stepX: 10,
      stepY: -0.5,
      wrapsLongitude: true,
    });
    // Over the pole: 0.5° down one side and 0.5° down the other is 1° of latitude, 111.2 km.
    expect(at(polar, 0, 89.5)).toMatchObject({ mm: 40, distanceKm: 111.2 });
  });

  test('a place that is none has no rain', () => {
    const nowhere = [
      [Number.NaN, 49.5],
      [-99.5, Number.NaN],
      [-99.5, 95],
      [Number.POSITIVE_INFINITY, 49.5],
    ];
    expect(nowhere.map(([x, y]) => at(grid, x!, y!).mm)).toEqual(nowhere.map(() => Number.NaN));
  });
});

describe('steep gradients', () => {
  test('nodes that differ by more than a factor 1.5 are flagged, by exactly 1.5 they are not', () => {
    expect(
      at(
        gridOf([
          [100, 100],
          [100, 150],
        ]),
        -99.5,
        49.5,
      ).steep,
    ).toBe(0);
    expect(
      at(
        gridOf([
          [100, 100],
          [100, 151],
        ]),
        -99.5,
        49.5,
      ).steep,
    ).toBe(1);
    expect(
      at(
        gridOf([
          [151, 100],
          [120, 120],
        ]),
        -99.5,
        49.5,
      ).steep,
    ).toBe(1);
  });

  test('the flag is the ratio of the greatest to the least node with data, missing ones or not', () => {
    fc.assert(
      fc.property(rows(2, 2), degrees(-100, -99), degrees(49, 50), (values, x, y) => {
        const read = at(gridOf(values), x, y);
        const known = values.flat().filter((v) => v !== null);
        const bilinear = known.length > 0 && Number.isNaN(read.distanceKm);
        expect(read.steep).toBe(bilinear && Math.max(...known) > 1.5 * Math.min(...known) ? 1 : 0);
      }),
      settings,
    );
  });
});

test('a thousand points at once say the same as one by one', () => {
  const grid = gridOf([
    [100, null, 300],
    [400, 500, null],
    [700, 800, 900],
  ]);
  const n = 1000;
  const x = Float64Array.from({ length: n }, (_, i) => -101 + (i % 40) / 10);
  const y = Float64Array.from({ length: n }, (_, i) => 47 + Math.floor(i / 40) / 6);
  const all = sampleGrid(grid, x, y);
  for (let i = 0; i < n; i++) {
    const one = at(grid, x[i]!, y[i]!);
    expect([all.mm[i], all.distanceKm[i], all.steep[i]]).toEqual([
      one.mm,
      one.distanceKm,
      one.steep,
    ]);
    const nodes = one.node.filter((node) => node >= 0).length;
    expect(nodes > 0).toBe(!Number.isNaN(all.mm[i]!));
  }
});

test('a single row is no grid: a mistake in our code', () => {
  expect(() => at(gridOf([[1, 2, 3]]), -99.5, 50)).toThrow('not a rain grid');
});

// Moritz, Geodetic Reference System 1980 (2000): R1 = 6371.0088 km; a degree is π R / 180 = 111.1951 km.
test('a degree of latitude is 111.1951 km, and so is one of longitude on the equator', () => {
  expect(earthRadiusKm).toBe(6371.0088);
  expect(haversineKm(-70, 40, -70, 41)).toBeCloseTo(111.1951, 3.9);
  expect(haversineKm(179.5, 0, -179.5, 0)).toBeCloseTo(111.1951, 3.9);
});
