import statesUrl from 'us-atlas/states-10m.json?url';
import countriesUrl from 'world-atlas/countries-50m.json?url';
import inlandUrl from '../inland/inland.geojson?url';
import type { LandSources } from './land.ts';

/**
 * Reads the land, borders and lakes that ship with the page.
 * @param sentence puts a file that could not be read into the words of whoever asks
 */
export async function readLand(sentence: (trouble: string) => string): Promise<LandSources> {
  const read = async <File>(url: string): Promise<File> => {
    const response = await fetch(url);
    if (!response.ok)
      throw new Error(sentence(`map file ${url} could not be read (${response.status})`));
    return (await response.json()) as File;
  };
  const [countries, states, inland] = await Promise.all([
    read<LandSources['countries']>(countriesUrl),
    read<LandSources['states']>(statesUrl),
    read<LandSources['inland']>(inlandUrl),
  ]);
  return { countries, states, inland };
}
