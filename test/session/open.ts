import { openNative } from '../../analysis/engine/native.ts';
import type { Engine } from '../../analysis/engine/port.ts';
import type { Assets } from '../../analysis/inputs.ts';
import { postalCentroids } from '../../analysis/place/postal.ts';
import { decodeGrid } from '../../analysis/rain/grid.ts';
import { memorySource } from '../../analysis/read/memory-source.ts';
import { createSession } from '../../analysis/session.ts';
import type { Analyst, Inputs } from '../../analysis/session-types.ts';
import { defaultSettings, type Settings } from '../../analysis/settings.ts';
import { decodeStations } from '../../analysis/stations/built-in.ts';
import { generateDemo } from '../../data/demo/generate.ts';
import { buildDefaultGrid } from '../../data/grid/build.ts';
import { buildPostal } from '../../data/postal/build.ts';
import { buildStations } from '../../data/stations/build.ts';

const grid = decodeGrid(buildDefaultGrid().buffer);
const stations = decodeStations(await buildStations(grid));
let built: Assets | undefined;
/** What ships: the default grid, the stations that adjust it and the postal centroids. */
export function assets(): Assets {
  built ??= { grid, stations, postal: postalCentroids(buildPostal().buffer) };
  return built;
}

export const session = async (settings: Settings = defaultSettings): Promise<Analyst> =>
  createSession(await openNative(), assets(), settings);

/** The engine after an invented portfolio was read and scored in it. */
export async function scoredDemo(buildings: number, seed = 5): Promise<Engine> {
  const engine = await openNative();
  const analyst = createSession(engine, assets());
  const { buildingsCsv, wallsCsv } = generateDemo({ buildings, seed });
  await analyst.open(inputs(buildingsCsv, wallsCsv));
  return engine;
}

export const inputs = (buildings: string, walls?: string): Inputs => ({
  buildings: memorySource('buildings.csv', buildings),
  ...(walls === undefined ? {} : { walls: [memorySource('walls.csv', walls)] }),
});

/** The bytes of an exported file as text. */
export const textOf = ({ bytes }: { readonly bytes: Uint8Array }): string =>
  new TextDecoder().decode(bytes);
