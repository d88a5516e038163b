import statesUrl from 'us-atlas/states-10m.json?url';
import countriesUrl from 'world-atlas/countries-50m.json?url';
import inlandUrl from '../map/inland/inland.geojson?url';
import type { LandSources } from '../map/tiles/land.ts';

async function read<T>(url: string): Promise<T> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`the map file ${url} could not be read (${response.status})`);
  return (await response.json()) as T;
}

let known: Promise<LandSources> | null = null;

async function fetchLand(): Promise<LandSources> {
  const [countries, states, inland] = await Promise.all([
    read<LandSources['countries']>(countriesUrl),
    read<LandSources['states']>(statesUrl),
    read<LandSources['inland']>(inlandUrl),
  ]);
  return { countries, states, inland };
}

/** Land, borders and lakes that ship with the page; read once, asked for again where that went wrong. */
export function readLand(): Promise<LandSources> {
  known ??= fetchLand().catch((cause: unknown) => {
    known = null;
    throw cause;
  });
  return known;
}
