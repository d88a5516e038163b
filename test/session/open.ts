import { openNative } from '../../analysis/engine/native.ts';
import type { Assets } from '../../analysis/inputs.ts';
import { postalCentroids } from '../../analysis/place/postal.ts';
import { decodeGrid } from '../../analysis/rain/grid.ts';
import type { ByteSource } from '../../analysis/read/outcome.ts';
import { createSession } from '../../analysis/session.ts';
import type { Analyst, Inputs } from '../../analysis/session-types.ts';
import { defaultSettings, type Settings } from '../../analysis/settings.ts';
import { buildDefaultGrid } from '../../data/grid/build.ts';
import { buildPostal } from '../../data/postal/build.ts';

/** A text as the file a user might have given. */
const textSource = (name: string, text: string): ByteSource => ({
  name,
  bytes: async function* () {
    yield new TextEncoder().encode(text);
  },
});

let built: Assets | undefined;
function assets(): Assets {
  built ??= {
    grid: decodeGrid(buildDefaultGrid().buffer),
    postal: postalCentroids(buildPostal().buffer),
  };
  return built;
}

export const session = async (settings: Settings = defaultSettings): Promise<Analyst> =>
  createSession(await openNative(), assets(), settings);

export const inputs = (buildings: string, walls?: string): Inputs => ({
  buildings: textSource('buildings.csv', buildings),
  ...(walls === undefined ? {} : { walls: textSource('walls.csv', walls) }),
});
