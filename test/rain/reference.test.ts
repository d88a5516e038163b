import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { decodeGrid } from '../../analysis/rain/grid.ts';
import { nodesAt, sampleGrid } from '../../analysis/rain/sample.ts';
import { buildDefaultGrid } from '../../data/grid/build.ts';
import { gridOf } from './grids.ts';

interface Sampled {
  readonly longitude: number;
  readonly latitude: number;
  readonly mm: number | null;
}

// Made by test/reference/rain/bilinear.py with gdalwarp -r bilinear, GDAL 3.6.2.
const reference = JSON.parse(
  readFileSync(new URL('../reference/rain/bilinear.json', import.meta.url), 'utf8'),
);
const points = (list: readonly Sampled[]) =>
  [
    Float64Array.from(list, (p) => p.longitude),
    Float64Array.from(list, (p) => p.latitude),
  ] as const;

test('rain on the default grid equals gdalwarp’s bilinear, at nodes and beside the date line too', () => {
  const world: Sampled[] = reference.world.points;
  const sample = sampleGrid(decodeGrid(buildDefaultGrid().buffer), ...points(world));
  expect(world.length).toBe(18);
  world.forEach(({ mm }, i) => {
    expect(sample.mm[i]).toBeCloseTo(mm!, 3.9);
  });
});

test('beside nodes without data the others are renormalised as gdalwarp does', () => {
  const { rows, points: list, west, north, step } = reference.region;
  const grid = gridOf(rows, { west, north, stepX: step, stepY: -step });
  const region: Sampled[] = list;
  const sample = sampleGrid(grid, ...points(region));
  const known = region.filter(({ mm }) => mm !== null);
  const partial = region.filter(
    ({ mm, longitude, latitude }) =>
      mm !== null && nodesAt(grid, longitude, latitude).node.includes(-1),
  );
  expect([known.length, partial.length > 10]).toEqual([48, true]);
  region.forEach(({ mm }, i) => {
    if (mm !== null) expect(sample.mm[i]).toBeCloseTo(mm, 3.9);
  });
});

test('where gdalwarp refuses a place for its own cell, ours still holds to the nodes around it or says how far it went', () => {
  const { rows, points: list, west, north, step } = reference.region;
  const grid = gridOf(rows, { west, north, stepX: step, stepY: -step });
  const refused = (list as Sampled[]).filter(({ mm }) => mm === null);
  const sample = sampleGrid(grid, ...points(refused));
  expect(refused.length).toBeGreaterThan(10);
  refused.forEach(({ longitude, latitude }, i) => {
    const nodes = [...nodesAt(grid, longitude, latitude).node].filter((node) => node >= 0);
    expect(nodes.every((node) => !Number.isNaN(grid.mm[node]))).toBe(true);
    expect(Number.isNaN(sample.mm[i])).toBe(nodes.length === 0);
    if (nodes.length === 0) expect(sample.distanceKm[i]).toBeNaN();
  });
});
