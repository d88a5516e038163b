import statesUrl from 'us-atlas/states-10m.json?url';
import countriesUrl from 'world-atlas/countries-50m.json?url';
import inlandUrl from '../inland/inland.geojson?url';
import type { LandSources } from './land.ts';
import type { Envelope, Reply } from './messages.ts';
import { SheetTiles } from './sheet-tiles.ts';

/** Reads a map file of our own origin. */
async function read<File>(url: string): Promise<File> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`The map file ${url} could not be read (${response.status}).`);
  return (await response.json()) as File;
}

async function readLand(): Promise<LandSources> {
  const [countries, states, inland] = await Promise.all([
    read<LandSources['countries']>(countriesUrl),
    read<LandSources['states']>(statesUrl),
    read<LandSources['inland']>(inlandUrl),
  ]);
  return { countries, states, inland };
}

const tiles = new SheetTiles(readLand());

function answer<Result>({ name, request }: Envelope): Result | Promise<Result> {
  const handler = tiles[name] as (request: unknown) => Result | Promise<Result>;
  return handler.call(tiles, request);
}

const reply = (message: Reply, transfer: Transferable[] = []) => postMessage(message, { transfer });

addEventListener('message', async ({ data }: MessageEvent<Envelope>) => {
  try {
    const result = await answer(data);
    reply({ id: data.id, answer: result }, result instanceof ArrayBuffer ? [result] : []);
  } catch (cause) {
    reply({ id: data.id, error: cause instanceof Error ? cause.message : String(cause) });
  }
});
