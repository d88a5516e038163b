import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { asLonLat } from '../../analysis/rain/as-lon-lat.ts';
import { epsgDefinition } from '../../analysis/rain/formats/projections.ts';
import { readRain } from '../../analysis/rain/formats/read.ts';
import { haversineKm } from '../../analysis/rain/great-circle.ts';
import { decodeGrid, encodeGrid, type RainGrid } from '../../analysis/rain/grid.ts';
import { loadProjections, placeOfNode, projectorOf } from '../../analysis/rain/projection.ts';
import { nodesAt, sampleGrid } from '../../analysis/rain/sample.ts';
import { gridSource, readings } from './grid-files.ts';
import { gridOf } from './grids.ts';

beforeAll(loadProjections);

const at = new Float64Array(2);

describe('coordinates of EPSG codes are PROJ’s (readings.json, by test/reference/grids/make.py)', () => {
  test.each(Object.entries(readings.projections))('EPSG:%s', async (code, [lon, lat, x, y]) => {
    const definition = await epsgDefinition(Number(code));
    const projector = projectorOf(definition!);
    projector.forward(lon, lat, at);
    // Grid files of datum shifts are left out: NAD27 and the like are off by less than 0.3 km.
    const tolerance = definition!.includes('NAD27') || definition!.includes('airy') ? 300 : 0.01;
    expect(Math.hypot(at[0]! - x, at[1]! - y)).toBeLessThan(tolerance);
    projector.inverse(at[0]!, at[1]!, at);
    expect([at[0], at[1]]).toEqual([expect.closeTo(lon, 7), expect.closeTo(lat, 7)]);
  });
});

/** US Albers over the middle of the country, 60 km steps, with invented holes. */
const albers = '+proj=aea +lat_0=23 +lon_0=-96 +lat_1=29.5 +lat_2=45.5 +x_0=0 +y_0=0 +datum=NAD83';
const value = fc.oneof(
  { weight: 1, arbitrary: fc.integer({ min: 1, max: 4000 }) },
  { weight: 8, arbitrary: fc.constant(null) },
);
const onAlbers = (values: readonly (number | null)[]): RainGrid =>
  gridOf(
    Array.from({ length: 12 }, (_, r) => values.slice(14 * r, 14 * r + 14)),
    { west: -400_000, north: 2_100_000, stepX: 60_000, stepY: -60_000, projection: albers },
  );

/** Every node measured: what the search must find. */
function nearestByHand(grid: RainGrid, longitude: number, latitude: number): number {
  return grid.mm.reduce((least, mm, node) => {
    const [lon, lat] = placeOfNode(grid, node);
    return Number.isNaN(mm) ? least : Math.min(least, haversineKm(longitude, latitude, lon, lat));
  }, Number.POSITIVE_INFINITY);
}

test('on a projection, a place without data takes the nearest node by great circle within reach', () => {
  fc.assert(
    fc.property(
      fc.array(value, { minLength: 168, maxLength: 168 }),
      fc.double({ min: -103, max: -89, noNaN: true }),
      fc.double({ min: 33, max: 44, noNaN: true }),
      (values, x, y) => {
        const grid = onAlbers(values);
        const sample = sampleGrid(grid, Float64Array.of(x), Float64Array.of(y));
        const km = nearestByHand(grid, x, y);
        const { weight } = nodesAt(grid, x, y);
        if (weight.some((w) => w > 0) && Number.isNaN(sample.distanceKm[0]!)) return;
        if (km > 150.001) expect(sample.mm[0]).toBeNaN();
        else if (km < 149.999) expect(Math.abs(sample.distanceKm[0]! - km)).toBeLessThan(0.0501);
      },
    ),
    { seed: 8, numRuns: 400 },
  );
});

test('places off the Earth or out of the projection’s reach have no rain', () => {
  const grid = onAlbers(new Array(168).fill(900));
  const longitude = Float64Array.of(Number.NaN, 84, -96, 0);
  const latitude = Float64Array.of(40, -89, 95, Number.NaN);
  expect([...sampleGrid(grid, longitude, latitude).mm]).toEqual([NaN, NaN, NaN, NaN]);
});

test('a grid on a projection comes back from its bytes, projection included', () => {
  const grid = onAlbers(new Array(168).fill(900));
  expect(decodeGrid(encodeGrid(grid).buffer)).toEqual(grid);
  expect(structuredClone(grid)).toEqual(grid);
});

describe('for drawing, a grid is resampled by longitude and latitude', () => {
  test('values are those of the grid itself, and nothing is drawn where it has none', async () => {
    const { grid } = await readRain(gridSource('tile-plain-float.tif'), null);
    const drawn = asLonLat(grid, 400);
    expect(drawn.projection).toBeUndefined();
    expect(drawn.width * drawn.height).toBeLessThanOrEqual(400);
    expect(drawn.mm.some((mm) => mm > 0)).toBe(true);
    drawn.mm.forEach((mm, node) => {
      const [x, y] = placeOfNode(drawn, node);
      const { mm: own, distanceKm } = sampleGrid(grid, Float64Array.of(x), Float64Array.of(y));
      if (Number.isNaN(mm)) expect(Number.isNaN(own[0]!) || distanceKm[0]! > 0).toBe(true);
      else expect(mm).toBe(Math.fround(own[0]!));
    });
  });

  test('all nodes of the grid lie within it', async () => {
    const { grid } = await readRain(gridSource('own-polar.tif'), null);
    const drawn = asLonLat(grid, 2000);
    for (let node = 0; node < grid.mm.length; node++) {
      const [x, y] = placeOfNode(grid, node);
      expect(x).toBeGreaterThan(drawn.west - 0.02);
      expect(x).toBeLessThan(drawn.west + (drawn.width - 1) * drawn.stepX + 0.02);
      expect(y).toBeLessThan(drawn.north + 0.02);
      expect(y).toBeGreaterThan(drawn.north + (drawn.height - 1) * drawn.stepY - 0.02);
    }
  });

  test('a small grid by longitude and latitude is drawn as it is, a large one thinned', () => {
    const grid = gridOf([
      [1, 2, 3],
      [4, 5, 6],
      [7, 8, 9],
    ]);
    expect(asLonLat(grid, 9)).toBe(grid);
    expect([...asLonLat(grid, 4).mm]).toEqual([1, 3, 7, 9]);
  });
});
