import type { ColumnMap } from '../../analysis/mapping/column-map.ts';
import { Refusal } from '../../analysis/read/outcome.ts';
import type { Inputs } from '../../analysis/session-types.ts';
import buildingsUrl from '../../data/built/invented-buildings.csv?url';
import mapsUrl from '../../data/built/invented-maps.json?url';
import wallsUrl from '../../data/built/invented-walls.csv?url';
import { fileSource } from './files.ts';

/**
 * The invented example, as two files like any user's, and the maps by which they are read. Throws a Refusal where it
 * cannot be fetched.
 */
export async function demoInputs(): Promise<Inputs> {
  const [buildings, walls, maps] = await Promise.all([
    fetched(buildingsUrl, 'invented-buildings.csv'),
    fetched(wallsUrl, 'invented-walls.csv'),
    fetched(mapsUrl, 'invented-maps.json'),
  ]);
  return {
    demo: true,
    buildings: fileSource(buildings),
    walls: [fileSource(walls)],
    maps: JSON.parse(await maps.text()) as ColumnMap[],
  };
}

async function fetched(url: string, name: string): Promise<File> {
  const answer = await fetch(url).catch(() => null);
  if (!answer?.ok) {
    throw new Refusal(
      'The invented example',
      'It could not be fetched. Check the connection and load the page again; files of your own can be opened in Sources meanwhile.',
    );
  }
  return new File([await answer.blob()], name);
}
