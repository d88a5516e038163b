import { readFileSync } from 'node:fs';
import { deviation, mean } from 'd3';
import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { decodeGrid } from '../../analysis/rain/grid.ts';
import { sampleGrid } from '../../analysis/rain/sample.ts';
import { buildDefaultGrid } from '../../data/grid/build.ts';

interface City {
  readonly city: string;
  readonly normal_in: string;
  readonly latitude: string;
  readonly longitude: string;
}

// R 4.2.2 datasets::precip, Statistical Abstract of the United States 1975; written by data/stations/build.R.
const file = new URL('../../data/stations/us-city-normals.csv', import.meta.url);
const parsed = Papa.parse(readFileSync(file, 'utf8'), { header: true, skipEmptyLines: true });
const cities = parsed.data as unknown as City[];
const column = (name: 'normal_in' | 'latitude' | 'longitude') =>
  Float64Array.from(cities, (row) => Number(row[name]));

const normal = column('normal_in');
const sampled = sampleGrid(
  decodeGrid(buildDefaultGrid().buffer),
  column('longitude'),
  column('latitude'),
);
const grid = sampled.mm.map((mm) => mm / 25.4);

const average = (values: Iterable<number>) => mean(values)!;
function correlation(a: Float64Array, b: Float64Array): number {
  const [ma, mb] = [average(a), average(b)];
  const covariance = a.reduce((sum, x, i) => sum + (x - ma) * (b[i]! - mb), 0) / (a.length - 1);
  return covariance / (deviation(a)! * deviation(b)!);
}

test('there are 70 cities, each with rain of the grid, and their sum is R’s', () => {
  expect(cities.length).toBe(70);
  expect(grid.every((x) => x > 0)).toBe(true);
  expect(normal.reduce((a, b) => a + b)).toBeCloseTo(2442, 6); // R: sum(precip)
});

test('against the 70 city normals the default grid has r 0.70, RMSE 14.0 in, and agrees on 20 in for 63', () => {
  const errors = grid.map((x, i) => x - normal[i]!);
  expect(correlation(grid, normal)).toBeCloseTo(0.7016, 3.5);
  expect(Math.sqrt(average(errors.map((e) => e * e)))).toBeCloseTo(13.968, 2.5);
  expect(grid.filter((x, i) => x > 20 === normal[i]! > 20).length).toBe(63);
});

test('ln(station) − ln(grid) spreads by 0.310, and the grid is the wetter by 0.236', () => {
  const difference = grid.map((x, i) => Math.log(normal[i]! / x));
  expect(deviation(difference)).toBeCloseTo(0.3099, 3.5);
  expect(average(difference)).toBeCloseTo(-0.2364, 3.5);
});
