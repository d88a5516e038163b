import fc from 'fast-check';
import { expect, test } from 'vitest';
import { decodeGrid, encodeGrid } from '../../analysis/rain/grid.ts';
import { buildDefaultGrid } from '../../data/grid/build.ts';
import { gridOf } from './grids.ts';

const again = (grid: Parameters<typeof encodeGrid>[0]) => decodeGrid(encodeGrid(grid).buffer);

test('a grid comes back from its bytes exactly, missing nodes and heading included', () => {
  const cell = fc.oneof(
    fc.constant(null),
    fc.integer({ min: 0, max: 70_000 }),
    fc.float({ min: 0, max: 30_000, noNaN: true }),
  );
  const rows = fc.array(fc.tuple(cell, cell, cell), { minLength: 2, maxLength: 5 });
  fc.assert(
    fc.property(rows, fc.string(), (values, source) => {
      const grid = gridOf(values, { source, stepX: 0.1, wrapsLongitude: true });
      expect(again(grid)).toEqual(grid);
    }),
    { seed: 1 },
  );
});

test('whole millimetres take two bytes a node, others four', () => {
  const rows = Array.from({ length: 50 }, () => Array.from({ length: 50 }, () => 65_534));
  const parted = rows.map((row) => row.map((x) => x / 4));
  expect(encodeGrid(gridOf(rows)).length).toBeLessThan(2 * 2500 + 300);
  expect(encodeGrid(gridOf(parted)).length).toBeGreaterThan(4 * 2500);
});

test('bytes that are no grid are refused', () => {
  expect(() => decodeGrid(new ArrayBuffer(16))).toThrow('not an encoded rain grid');
});

// vega-datasets datapackage.json: global, 1 degree per cell; annual-precip.json: translate −180, 87, scale 1, −1.
test('the default grid is the whole world at 1°, first node at 180° W 87° N, every node with rain', () => {
  const grid = decodeGrid(buildDefaultGrid().buffer);
  expect(grid).toMatchObject({
    width: 360,
    height: 168,
    west: -180,
    north: 87,
    stepX: 1,
    stepY: -1,
  });
  expect(grid.wrapsLongitude).toBe(true);
  expect(grid.mm.every((x) => x >= 0 && x < 30_000)).toBe(true);
  expect(grid.mm[0]).toBe(392);
  expect(grid.source).toContain('NOAA');
});
