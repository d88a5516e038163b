import { mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { generateDemo } from './demo/generate.ts';
import { buildDefaultGrid } from './grid/build.ts';
import { buildPostal } from './postal/build.ts';

const { buildingsCsv, wallsCsv } = generateDemo({});

/** Files that are built from registry packages, and the invented example, never committed: name under data/built/ and what makes it. */
const assets = {
  'annual-precip.bin': buildDefaultGrid,
  'us-postal.bin': buildPostal,
  'invented-buildings.csv': () => buildingsCsv,
  'invented-walls.csv': () => wallsCsv,
} as const;

const folder = join(process.cwd(), 'data', 'built');
mkdirSync(folder, { recursive: true });
for (const [name, build] of Object.entries(assets)) {
  const path = join(folder, name);
  writeFileSync(`${path}.part`, build());
  renameSync(`${path}.part`, path);
}
