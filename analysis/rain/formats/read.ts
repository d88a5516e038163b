import { type ByteSource, Refusal } from '../../read/outcome.ts';
import { type GridFile, type RainFile, rainFileOf, readGridCsv } from '../csv-grid.ts';
import type { GridQuantity } from '../quantity.ts';
import { openEsriAscii } from './esri-ascii.ts';
import { openGeotiff } from './geotiff.ts';
import { openNetcdf } from './netcdf.ts';
import { readRaster } from './raster.ts';
import { bytesAt } from './slices.ts';
import type { Window } from './window.ts';

type Format = 'geotiff' | 'classic' | 'hdf5' | 'esri' | 'csv';

/** First bytes of a file, as Latin-1 text, by format. */
const beginnings: readonly (readonly [string, Format])[] = [
  ['II*\0', 'geotiff'],
  ['MM\0*', 'geotiff'],
  ['II+\0', 'geotiff'],
  ['MM\0+', 'geotiff'],
  ['CDF\x01', 'classic'],
  ['CDF\x02', 'classic'],
  ['CDF\x05', 'classic'],
  ['\x89HDF\r\n\x1a\n', 'hdf5'],
];

const esriHeading = /^\s*ncols\s+\d/i;

/** Beginnings of files that hold a grid, but not one we read; what to do instead. */
const packedUp: readonly (readonly [string, string])[] = [
  ['PK\x03\x04', 'is a ZIP archive. Unpack it, and choose the grid inside.'],
  ['\x1f\x8b', 'is compressed (gzip). Unpack it, and choose the file inside.'],
  ['GRIB', 'is a GRIB file. Save it as NetCDF or GeoTIFF, and choose that file.'],
];

async function formatOf(source: ByteSource): Promise<Format> {
  const head = String.fromCharCode(...(await bytesAt(source, 0, 64)));
  const why = packedUp.find(([begins]) => head.startsWith(begins))?.[1];
  if (why) throw new Refusal(source.name, `${source.name} ${why}`);
  const binary = beginnings.find(([begins]) => head.startsWith(begins))?.[1];
  return binary ?? (esriHeading.test(head) ? 'esri' : 'csv');
}

async function readRasterFile(
  source: ByteSource,
  quantity: GridQuantity,
  format: Exclude<Format, 'csv'>,
  window: Window | null,
  period: string,
): Promise<GridFile> {
  if (format === 'geotiff') return readRaster(await openGeotiff(source, quantity), window, period);
  if (format === 'esri') return readRaster(await openEsriAscii(source, quantity), window, period);
  const { raster, close } = await openNetcdf(source, quantity, format);
  try {
    return await readRaster(raster, window, period);
  } finally {
    close();
  }
}

/**
 * Reads a grid of rain, wind or temperature from GeoTIFF, NetCDF (classic and 4), an Esri ASCII grid or CSV; the first
 * bytes tell which. Of a raster only what the buildings within `window` (degrees) need is kept, and of all but NetCDF-4
 * and the text formats only that is read; null takes all. Throws a `Refusal` that says what is wrong and what to do.
 */
export async function readGrid(
  source: ByteSource,
  quantity: GridQuantity,
  window: Window | null,
  period = 'period not stated',
): Promise<GridFile> {
  const format = await formatOf(source);
  return format === 'csv'
    ? readGridCsv(source, quantity, period)
    : readRasterFile(source, quantity, format, window, period);
}

/** `readGrid` of rain. */
export const readRain = async (
  source: ByteSource,
  window: Window | null,
  period?: string,
): Promise<RainFile> => rainFileOf(await readGrid(source, 'rain', window, period));
