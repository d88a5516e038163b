import type { RainGrid } from '../../analysis/rain/grid.ts';
import { memorySource } from '../../analysis/read/memory-source.ts';
import { readStations } from '../../analysis/stations/read.ts';
import text from './us-city-normals.csv?raw';

/** How the built-in stations are named wherever rain is. */
const builtInName = '70 US city normals (Statistical Abstract of the United States, 1975)';

/** The stations that ship with the product, read like any file of the user's, as JSON for `decodeStations`. */
export async function buildStations(grid: RainGrid): Promise<string> {
  const file = await readStations(memorySource(builtInName, text), grid);
  const plain = (_: string, value: unknown) =>
    ArrayBuffer.isView(value) ? Array.from(value as Float64Array) : value;
  return JSON.stringify({ ...file, source: builtInName }, plain);
}
