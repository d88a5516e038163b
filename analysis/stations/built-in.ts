import text from '../../data/stations/us-city-normals.csv?raw';
import type { RainGrid } from '../rain/grid.ts';
import { memorySource } from '../read/memory-source.ts';
import { readStations, type StationFile } from './read.ts';

/** How the built-in stations are named wherever rain is. */
const builtInName = '70 US city normals (Statistical Abstract of the United States, 1975)';

/** The stations that ship with the product, read like any file of the user's; their own settings are `builtInStations`. */
export async function readBuiltInStations(grid: RainGrid): Promise<StationFile> {
  const source = memorySource(builtInName, text);
  return { ...(await readStations(source, grid)), source: builtInName };
}
