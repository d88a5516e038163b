import { describe, expect, test } from 'vitest';
import { readGrid, readRain } from '../../analysis/rain/formats/read.ts';
import type { RainGrid } from '../../analysis/rain/grid.ts';
import { placeOfNode } from '../../analysis/rain/projection.ts';
import { sampleGrid, sampleValues } from '../../analysis/rain/sample.ts';
import { gridSource, type Reading, readings } from './grid-files.ts';

// Values and places are GDAL's and PROJ's own readings of the same files: test/reference/grids/make.py.

/** Days of the months of a mean Gregorian year (97 leap years in 400), January first. */
const days = [31, 28.2425, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

type Year = (values: readonly number[]) => number;

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
const perDay: Year = (values) => sum(values.map((x, m) => x * days[m]!));
const perSecond: Year = (values) => 86400 * perDay(values);

/** What a year is made of in the files whose one value is not mm a year. */
const years: Readonly<Record<string, Year>> = {
  'inches.tif': ([x]) => x! * 25.4,
  'months.tif': sum,
  'months-by-band.tif': perDay,
  'two-years.nc': (values) => sum(values) / 2,
  'months-chunked.nc': sum,
};
const yearOf = (name: string): Year => {
  if (years[name]) return years[name];
  if (name.startsWith('months-')) return sum;
  if (name.startsWith('flux-')) return perSecond;
  return ([x]) => x!;
};

const refused = new Set(['two-bands.tif', 'all-missing.tif', 'undeclared-missing.tif']);
const otherQuantity = new Set(['wind.nc', 'temperature.nc', 'globe-360.nc']);
const names = Object.keys(readings.files).filter((n) => !refused.has(n) && !otherQuantity.has(n));

const at = (grid: RainGrid, longitude: number, latitude: number) =>
  sampleGrid(grid, Float64Array.of(longitude), Float64Array.of(latitude)).mm[0]!;

function expected({ nodes }: Reading, k: number, year: Year): number {
  const values = nodes[k]![2];
  return values.some((x) => x === null) ? Number.NaN : Math.fround(year(values as number[]));
}

describe.each(names)('%s', (name) => {
  const reading = readings.files[name]!;

  test('has the nodes GDAL reads: the same values, bit for bit, at the same places', async () => {
    const { grid, accepted } = await readRain(gridSource(name), null);
    expect([grid.width, grid.height]).toEqual([reading.width, reading.height]);
    expect(accepted).toBe(grid.mm.length);
    reading.nodes.forEach(([longitude, latitude], k) => {
      const [lon, lat] = placeOfNode(grid, 11 * k);
      expect(Math.abs(lon - (longitude - 360 * Math.round((longitude - lon) / 360)))).toBeLessThan(
        2e-5,
      );
      expect(Math.abs(lat - latitude)).toBeLessThan(2e-5);
      const mm = grid.mm[11 * k]!;
      const want = expected(reading, k, yearOf(name));
      // Sums of twelve months may end in another last bit; all else is the same.
      if (reading.nodes[k]![2].length > 1) expect(mm / want || 1).toBeCloseTo(1, 6);
      else expect(mm).toBe(want);
      expect(Number.isNaN(mm)).toBe(Number.isNaN(want));
    });
  });

  test('gives GDAL’s value where a building stands on a node', async () => {
    const { grid } = await readRain(gridSource(name), null);
    reading.nodes.forEach(([longitude, latitude], k) => {
      const want = expected(reading, k, yearOf(name));
      if (!Number.isNaN(want))
        expect(Math.abs(at(grid, longitude, latitude) - want)).toBeLessThan(0.01);
    });
  });

  if (!reading.between) return;
  const { between } = reading;
  test('gives GDAL’s bilinear value between nodes', async () => {
    const { grid } = await readRain(gridSource(name), null);
    for (const [longitude, latitude, value] of between) {
      const want = yearOf(name)([value]);
      expect(Math.abs(at(grid, longitude, latitude) - want)).toBeLessThan(0.01);
    }
  });
});

// GDAL wrote 0 … 511 into two tiles of 784 (make.py); the list of tiles is too long to come with the heading.
test.each(['little', 'big'])(
  'a long list of tiles is found in %s-endian files, tiles left out are no data',
  async (order) => {
    const { grid } = await readRain(gridSource(`many-tiles-${order}.tif`), null);
    const tile = (left: number) =>
      Array.from(
        { length: 256 },
        (_, i) => grid.mm[(160 + Math.floor(i / 16)) * 448 + left + (i % 16)],
      );
    expect(tile(208)).toEqual(Array.from({ length: 256 }, (_, i) => i));
    expect(tile(224)).toEqual(Array.from({ length: 256 }, (_, i) => 256 + i));
    expect(grid.mm.filter((mm) => !Number.isNaN(mm)).length).toBe(512);
  },
);

describe('units and what is assumed', () => {
  test('a GeoTIFF that names no unit is taken as mm a year, and says so', async () => {
    const { unit, assumed } = await readRain(gridSource('strip-plain-float.tif'), null);
    expect(unit).toBe('mm');
    expect(assumed).toEqual([
      'strip-plain-float.tif names no unit for its rain: mm a year is assumed.',
    ]);
    expect((await readRain(gridSource('inches.tif'), null)).assumed).toEqual([]);
  });

  test('wind in knots is read as m/s: 1 knot is 1852 m in 3600 s', async () => {
    const { grid, unit } = await readGrid(gridSource('wind.nc'), 'wind', null);
    expect(unit).toBe('knots');
    readings.files['wind.nc']!.nodes.forEach(([, , [knots]], k) => {
      if (typeof knots === 'number')
        expect(grid.values[11 * k]).toBeCloseTo((knots * 1852) / 3600, 5);
      else expect(grid.values[11 * k]).toBeNaN();
    });
  });

  test('wind at a place is sampled by the rules of rain', async () => {
    const { grid } = await readGrid(gridSource('wind.nc'), 'wind', null);
    const [longitude, latitude] = [Float64Array.of(-102.31, -107), Float64Array.of(43.02, 43)];
    const { values, distanceKm } = sampleValues(grid, longitude, latitude);
    const { values: mm, ...rest } = grid;
    const like = sampleGrid({ ...rest, mm }, longitude, latitude);
    expect([...values]).toEqual([...like.mm]);
    expect([...distanceKm]).toEqual([Number.NaN, like.distanceKm[1]]);
  });

  test('temperature in kelvin is read as °C', async () => {
    const { grid } = await readGrid(gridSource('temperature.nc'), 'temperature', null);
    readings.files['temperature.nc']!.nodes.forEach(([, , [kelvin]], k) => {
      if (typeof kelvin === 'number') expect(grid.values[11 * k]).toBeCloseTo(kelvin - 273.15, 4);
    });
  });

  test('centimetres with a missing_value of −1 are read', async () => {
    const { grid, unit } = await readRain(gridSource('missing-value.nc'), null);
    expect(unit).toBe('cm');
    // The same rain is in plain-classic.nc as mm; these are an eighth of it in cm.
    readings.files['plain-classic.nc']!.nodes.forEach(([, , [mm]], k) => {
      if (typeof mm === 'number') expect(grid.mm[11 * k]).toBeCloseTo((mm / 8) * 10, 3);
      else expect(grid.mm[11 * k]).toBeNaN();
    });
  });

  test('a file that names no coordinate system is taken as degrees where it can be, and says so', async () => {
    const { grid, assumed } = await readRain(gridSource('no-system-degrees.tif'), null);
    expect(grid.projection).toBeUndefined();
    expect(assumed[0]).toBe(
      'no-system-degrees.tif names no coordinate system: longitude and latitude are assumed.',
    );
  });

  test('wind and temperature come by CSV too', async () => {
    const { memorySource } = await import('../../analysis/read/memory-source.ts');
    const text = 'lon,lat,wind (mph)\n0,50,10\n1,50,20\n0,51,30\n1,51,40\n';
    const { grid, unit } = await readGrid(memorySource('w.csv', text), 'wind', null);
    expect(unit).toBe('mph');
    expect([...grid.values].map((x) => Math.round(x * 1e4) / 1e4)).toEqual([
      13.4112, 17.8816, 4.4704, 8.9408,
    ]);
    const warm = 'lon,lat,temperature_f\n0,50,14\n1,50,32\n0,51,50\n1,51,212\n'.replace(
      '212',
      '68',
    );
    const read = await readGrid(memorySource('t.csv', warm), 'temperature', null);
    expect([...read.grid.values].map((x) => Math.round(x * 1e4) / 1e4)).toEqual([10, 20, -10, 0]);
  });
});
