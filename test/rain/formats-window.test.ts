import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readRain } from '../../analysis/rain/formats/read.ts';
import { sampleGrid } from '../../analysis/rain/sample.ts';
import { refusal } from '../read/sources.ts';
import { counting, gridSource } from './grid-files.ts';
import { wideNetcdf, wideTiff } from './wide-files.ts';

/** A few places within a box of half a degree that lies anywhere in and around the grid. */
const places = fc.record({
  west: fc.double({ min: -107, max: -98, noNaN: true }),
  south: fc.double({ min: 39, max: 46, noNaN: true }),
  at: fc.array(
    fc.tuple(
      fc.double({ min: 0, max: 0.5, noNaN: true }),
      fc.double({ min: 0, max: 0.5, noNaN: true }),
    ),
    {
      minLength: 1,
      maxLength: 5,
    },
  ),
});

describe('reading only the window changes no value at the buildings in it', () => {
  const names = [
    'strip-lzw-float.tif',
    'south-up.tif',
    'months-by-band.tif',
    'point-degrees.tif',
    'plain-classic.nc',
    'ascending-360-hdf5.nc',
    'lon-first-offset64.nc',
    'months-chunked.nc',
    'corner.asc',
  ];
  test.each(names)('%s', async (name) => {
    const { grid: whole } = await readRain(gridSource(name), null);
    await fc.assert(
      fc.asyncProperty(places, async ({ west, south, at }) => {
        const window = { west, south, east: west + 0.5, north: south + 0.5 };
        const longitude = Float64Array.from(at, ([x]) => west + x);
        const latitude = Float64Array.from(at, ([, y]) => south + y);
        const { grid } = await readRain(gridSource(name), window);
        const all = sampleGrid(whole, longitude, latitude);
        const some = sampleGrid(grid, longitude, latitude);
        expect([...some.mm]).toEqual([...all.mm]);
        expect([...some.distanceKm]).toEqual([...all.distanceKm]);
      }),
      { seed: 4, numRuns: 25 },
    );
  });

  test('on a map projection too', async () => {
    const { grid: whole } = await readRain(gridSource('tile-plain-float.tif'), null);
    await fc.assert(
      fc.asyncProperty(places, async ({ west, south, at }) => {
        const window = { west: west + 2, south: south - 1, east: west + 2.5, north: south - 0.5 };
        const longitude = Float64Array.from(at, ([x]) => window.west + x);
        const latitude = Float64Array.from(at, ([, y]) => window.south + y);
        const { grid } = await readRain(gridSource('tile-plain-float.tif'), window);
        const all = sampleGrid(whole, longitude, latitude);
        const some = sampleGrid(grid, longitude, latitude);
        some.mm.forEach((mm, i) => {
          if (Number.isNaN(all.mm[i]!)) expect(mm).toBeNaN();
          else expect(Math.abs(mm - all.mm[i]!)).toBeLessThan(1.1e-4);
        });
      }),
      { seed: 5, numRuns: 25 },
    );
  });

  test('on a grid around the world from 0° to 360°, across its seam, the date line and the pole', async () => {
    const { grid: whole } = await readRain(gridSource('globe-360.nc'), null);
    expect(whole).toMatchObject({ west: -180, wrapsLongitude: true });
    const boxes = [
      { west: -3, south: 50, east: 4, north: 55 },
      { west: 175, south: -20, east: -170, north: -10 },
      { west: 175, south: -20, east: 190, north: -10 },
      { west: 100, south: 86, east: 110, north: 89 },
    ];
    for (const window of boxes) {
      const { grid } = await readRain(gridSource('globe-360.nc'), window);
      const longitude = Float64Array.of(window.west, window.east, window.west + 1.7);
      const latitude = Float64Array.of(window.south, window.north, window.south + 0.6);
      expect([...sampleGrid(grid, longitude, latitude).mm]).toEqual([
        ...sampleGrid(whole, longitude, latitude).mm,
      ]);
      if (window.north < 80) expect(grid.width).toBeLessThan(20);
    }
  });
});

test('a window elsewhere is refused with what the grid covers', async () => {
  const window = { west: 10, south: 48, east: 12, north: 50 };
  expect(await refusal(readRain(gridSource('strip-plain-float.tif'), window))).toBe(
    'No building lies on the grid of strip-plain-float.tif or within 150 km of it. It covers longitudes -105.375° to -99.875° and latitudes 40.625° to 45.125°. Choose a grid of their region.',
  );
  expect(await refusal(readRain(gridSource('tile-plain-float.tif'), window))).toBe(
    'No building lies on the grid of tile-plain-float.tif or within 150 km of it. Choose a grid of their region.',
  );
});

describe('a large file is asked only for what the buildings need', () => {
  const window = { west: -90.2, south: 41, east: -89.8, north: 41.2 };

  test.each(['tiled', 'strips'] as const)(
    'a 268 MB GeoTIFF in %s: tiles of 256 rows, or strips of the whole width',
    async (shape) => {
      const { source, value } = wideTiff(shape);
      expect(source.size).toBeGreaterThan(268e6);
      const counted = counting(source);
      const { grid } = await readRain(counted.source, window);
      expect(counted.asked.bytes).toBeLessThan(source.size / (shape === 'tiled' ? 50 : 10));
      const { mm } = sampleGrid(grid, Float64Array.of(-90), Float64Array.of(41.1));
      expect(mm[0]).toBeCloseTo(value(-90, 41.1), 1);
    },
  );

  test('a 128 MB classic NetCDF with latitude first', async () => {
    const { source, value } = wideNetcdf();
    expect(source.size).toBeGreaterThan(128e6);
    const counted = counting(source);
    const { grid } = await readRain(counted.source, window);
    expect(counted.asked.bytes).toBeLessThan(source.size / 10);
    const { mm } = sampleGrid(grid, Float64Array.of(-90), Float64Array.of(41.1));
    expect(mm[0]).toBeCloseTo(value(-90, 41.1), 1);
  });
});
