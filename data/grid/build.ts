import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { encodeGrid, type RainGrid } from '../../analysis/rain/grid.ts';

interface PrecipitationFile {
  readonly width: number;
  readonly height: number;
  /** Degrees per column and row. */
  readonly scale: readonly [number, number];
  /** Longitude and latitude of the first node. */
  readonly translate: readonly [number, number];
  readonly values: readonly number[];
}

function read(): PrecipitationFile {
  const entry = createRequire(import.meta.url).resolve('vega-datasets');
  return JSON.parse(readFileSync(join(dirname(entry), '../data/annual-precip.json'), 'utf8'));
}

/**
 * The grid that is used where the user gives none: annual precipitation of 2016, 1°, mm, NOAA Climate Forecast System
 * version 2, public domain, as packed in npm `vega-datasets` (`annual-precip.json`). One model year, not a normal.
 */
export function buildDefaultGrid(): Uint8Array<ArrayBuffer> {
  const file = read();
  const grid: RainGrid = {
    width: file.width,
    height: file.height,
    west: file.translate[0],
    north: file.translate[1],
    stepX: file.scale[0],
    stepY: file.scale[1],
    mm: Float32Array.from(file.values),
    wrapsLongitude: file.width * file.scale[0] === 360,
    source:
      'NOAA Climate Forecast System version 2, 1° grid, through vega-datasets (public domain)',
    period: '2016, one model year',
  };
  return encodeGrid(grid);
}
