import { type ByteSource, Refusal } from '../../analysis/read/outcome.ts';
import type { Inputs } from '../../analysis/session-types.ts';
import buildingsUrl from '../../data/built/invented-buildings.csv?url';
import wallsUrl from '../../data/built/invented-walls.csv?url';
import { fileSource } from './files.ts';

/** The invented example, as two files like any user's. Throws a Refusal where it cannot be fetched. */
export async function demoInputs(): Promise<Inputs> {
  const [buildings, walls] = await Promise.all([
    fetched(buildingsUrl, 'invented-buildings.csv'),
    fetched(wallsUrl, 'invented-walls.csv'),
  ]);
  return { demo: true, buildings, walls: [walls] };
}

async function fetched(url: string, name: string): Promise<ByteSource> {
  const answer = await fetch(url).catch(() => null);
  if (!answer?.ok) {
    throw new Refusal(
      'The invented example',
      'It could not be fetched. Check the connection and load the page again; files of your own can be opened in Sources meanwhile.',
    );
  }
  return fileSource(new File([await answer.blob()], name, { type: 'text/csv' }));
}
