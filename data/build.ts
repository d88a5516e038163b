import { mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { settledMap } from '../analysis/mapping/settle.ts';
import { decodeGrid } from '../analysis/rain/grid.ts';
import { memorySource } from '../analysis/read/memory-source.ts';
import { generateDemo } from './demo/generate.ts';
import { buildDefaultGrid } from './grid/build.ts';
import { buildPostal } from './postal/build.ts';
import { buildStations } from './stations/build.ts';

const { buildingsCsv, wallsCsv } = generateDemo({});

/** How the example's tables are read, so that the page need not guess it. */
const maps = await Promise.all([
  settledMap(memorySource('invented-buildings.csv', buildingsCsv), 'buildings'),
  settledMap(memorySource('invented-walls.csv', wallsCsv), 'walls'),
]);

const grid = buildDefaultGrid();
const stations = await buildStations(decodeGrid(grid.buffer));

/** Files that are built from registry packages, and the invented example, never committed: name under data/built/ and what makes it. */
const assets = {
  'annual-precip.bin': () => grid,
  'us-stations.json': () => stations,
  'us-postal.bin': buildPostal,
  'invented-buildings.csv': () => buildingsCsv,
  'invented-walls.csv': () => wallsCsv,
  'invented-maps.json': () => JSON.stringify(maps),
} as const;

const folder = join(process.cwd(), 'data', 'built');
mkdirSync(folder, { recursive: true });
for (const [name, build] of Object.entries(assets)) {
  const path = join(folder, name);
  writeFileSync(`${path}.part`, build());
  renameSync(`${path}.part`, path);
}
