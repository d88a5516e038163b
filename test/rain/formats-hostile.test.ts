import { describe, expect, test } from 'vitest';
import { readGrid, readRain } from '../../analysis/rain/formats/read.ts';
import { memorySource } from '../../analysis/read/memory-source.ts';
import { refusal } from '../read/sources.ts';
import { gridBytes, gridSource } from './grid-files.ts';

const read = (name: string) => refusal(readRain(gridSource(name), null));
const save =
  'Save it in longitude and latitude (WGS 84, EPSG:4326) with the program it comes from, and choose that file.';

describe('a raster that cannot be used is refused in one sentence that says what to do', () => {
  test.each([
    [
      'two-bands.tif',
      'two-bands.tif has 2 bands. Give one band with the year, or twelve with its months, January first.',
    ],
    [
      'rotated.tif',
      'The rows of rotated.tif are rotated against its coordinates. Save it upright (rows from west to east), and choose that file.',
    ],
    ['nowhere.tif', `nowhere.tif does not say where on Earth it lies. ${save}`],
    [
      'no-system.tif',
      `The coordinates of no-system.tif are not degrees, and it names no map projection. ${save}`,
    ],
    [
      'all-missing.tif',
      'all-missing.tif has no data: every node is marked as missing. Choose a file with rain there.',
    ],
    [
      'undeclared-missing.tif',
      'undeclared-missing.tif holds -9998 mm under “band 1” (read in mm), which no rain is. Is that its no-data value, or is the unit another? Name it in the file.',
    ],
    [
      'days.nc',
      'days.nc has 24 time steps that are neither the months of whole years nor years. Give one layer with the mean year, or twelve with its months, January first.',
    ],
    [
      'several-unknown.nc',
      'several-unknown.nc has no variable that we know as rain. It has “alpha”, “beta”. Give the right one a standard_name, or name it rain.',
    ],
    [
      'temperature.nc',
      'temperature.nc has no variable that we know as rain. It has “tas”. Give the right one a standard_name, or name it rain.',
    ],
  ])('%s', async (name, sentence) => {
    expect(await read(name)).toBe(sentence);
  });

  test('a map projection that is not known is named', async () => {
    expect(await read('unknown-code.tif')).toBe(
      `unknown-code.tif is on a map projection we do not know (EPSG:2065). ${save}`,
    );
    expect(await read('unknown-kind.tif')).toMatch(
      /^unknown-kind\.tif is on a map projection we do not know \(.+\)\. Save it in longitude/,
    );
  });

  test('uneven latitudes name the one that is off', async () => {
    expect(await read('uneven.nc')).toMatch(
      /^The latitudes of uneven\.nc are not evenly spaced: [\d.]+ lies between the steps of -[\d.]+°\./,
    );
  });

  test('an Esri grid in metres is refused: the format names no projection', async () => {
    expect(await read('metres.asc')).toMatch(
      /^The coordinates of metres\.asc are not degrees \(x 500000 to /,
    );
  });

  test('CDF-5 is refused with what to save instead', async () => {
    expect(await read('cdf5.nc')).toMatch(
      /^cdf5\.nc cannot be read as NetCDF \(.+\)\. Save it as NetCDF-4, or as classic/,
    );
  });

  test('a unit of another quantity is refused with the known ones', async () => {
    expect(await refusal(readGrid(gridSource('inches.tif'), 'wind', null))).toBe(
      'inches.tif gives its wind in “in”, a unit we do not know. Known units: m/s, km/h, mph, knots.',
    );
  });

  test.each([
    ['PK\x03\x04', 'is a ZIP archive. Unpack it, and choose the grid inside.'],
    ['\x1f\x8b', 'is compressed (gzip). Unpack it, and choose the file inside.'],
    ['GRIB', 'is a GRIB file. Save it as NetCDF or GeoTIFF, and choose that file.'],
  ])('a file that begins with %j is told apart', async (head, says) => {
    const bytes = Uint8Array.from(head, (c) => c.charCodeAt(0));
    expect(await refusal(readRain(memorySource('rain.bin', bytes), null))).toBe(`rain.bin ${says}`);
  });
});

describe('a file that is cut short anywhere is refused, never read as less rain', () => {
  const names = [
    'strip-plain-float.tif',
    'tile-deflate-float.tif',
    'tile-lzw-scaled.tif',
    'cog-lzw.tif',
    'big-endian.tif',
    'plain-classic.nc',
    'months-offset64.nc',
    'plain-hdf5.nc',
    'months-chunked.nc',
    'corner.asc',
  ];
  test.each(names)('%s', async (name) => {
    const bytes = gridBytes(name);
    for (const share of [0.02, 0.3, 0.6, 0.9, 0.97]) {
      const part = memorySource(name, bytes.slice(0, Math.floor(share * bytes.length)));
      expect(await refusal(readRain(part, null))).toContain(name);
    }
  });
});
