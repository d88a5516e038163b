import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { eastward, shortestRun, turnedTo } from '../../analysis/place/longitudes.ts';

const run = (...longitudes: number[]) => shortestRun(Float64Array.from(longitudes));

describe('the shortest run of longitudes', () => {
  test.each([
    ['one place', [-122], -122, -122],
    ['a continent', [-122, -75, -90], -122, -75],
    ['Attu and Anchorage', [173.2, -149.9], 173.2, 210.1],
    ['Fiji to both sides', [178.4, -179.9, 177.4], 177.4, 180.1],
    ['New Zealand with the Chatham Islands', [174.8, 168.4, -176.5], 168.4, 183.5],
    ['Seattle, New York, Suva', [-122, -74, 178], 178, 286],
    ['Seattle, London, Delhi', [-122, 0, 77], -122, 77],
    ['Seattle, London, Tokyo: over the Pacific', [-122, 0, 140], 140, 360],
    ['either side of 180°', [180, -180], 180, 180],
    ['three evenly apart: cut at 180°', [-120, 0, 120], -120, 120],
  ])('%s', (_, longitudes, west, east) => {
    const found = run(...longitudes)!;
    expect(found.west).toBe(west);
    expect(found.east).toBeCloseTo(east, 9);
  });

  test('without places there is none', () => expect(run()).toBeNull());

  test('holds every longitude, begins at one and ends at one, and no other run is shorter (property)', () => {
    const longitude = fc.integer({ min: -1800, max: 1800 }).map((tenth) => tenth / 10);
    fc.assert(
      fc.property(fc.array(longitude, { minLength: 1, maxLength: 12 }), (longitudes) => {
        const { west, east } = run(...longitudes)!;
        const span = east - west;
        expect(longitudes).toContain(west);
        for (const x of longitudes) expect(eastward(west, x)).toBeLessThanOrEqual(span + 1e-9);
        for (const x of longitudes) {
          const other = Math.max(...longitudes.map((y) => eastward(x, y)));
          expect(span).toBeLessThanOrEqual(other + 1e-9);
        }
      }),
      { seed: 180, numRuns: 500 },
    );
  });
});

test('eastward is counted from 0 to below 360', () => {
  expect(eastward(170, -170)).toBe(20);
  expect(eastward(-170, 170)).toBe(340);
  expect(eastward(10, 10)).toBe(0);
});

test('a longitude is turned to lie within half a turn of a meridian', () => {
  expect(turnedTo(191, 173)).toBe(173);
  expect(turnedTo(191, -150)).toBe(210);
  expect(turnedTo(-169, 173)).toBe(-187);
  expect(turnedTo(-95, -122.33)).toBe(-122.33);
  expect(turnedTo(0, 350)).toBe(-10);
});
