import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { VectorTile, type VectorTileFeature } from '@mapbox/vector-tile';
import type { FeatureCollection } from 'geojson';
import { PbfReader } from 'pbf';
import { layerName } from '../../dashboard/map/tiles/encode.ts';
import type { LandSources } from '../../dashboard/map/tiles/land.ts';
import type { TileId } from '../../dashboard/map/tiles/mercator.ts';

const require = createRequire(import.meta.url);

/** A file of the working tree, by its path from the root. */
export const fileText = (path: string): string =>
  readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');

/** The open data that land is drawn from. */
export function landSources(): LandSources {
  return {
    countries: require('world-atlas/countries-50m.json') as LandSources['countries'],
    states: require('us-atlas/states-10m.json') as LandSources['states'],
    inland: JSON.parse(fileText('dashboard/map/inland/inland.geojson')) as FeatureCollection,
  };
}

/** Features of a tile as the reference reader sees them (@mapbox/vector-tile). */
export function readTile(bytes: ArrayBuffer): VectorTileFeature[] {
  const layer = new VectorTile(new PbfReader(new Uint8Array(bytes))).layers[layerName];
  return Array.from({ length: layer?.length ?? 0 }, (_, i) => layer!.feature(i));
}

/**
 * Column and row of the tile that holds a place, as the OpenStreetMap wiki gives them ("Slippy map tilenames", from
 * memory): an independent way to the same tile.
 */
export function tileOfPlace(longitude: number, latitude: number, z: number): TileId {
  const radians = (latitude * Math.PI) / 180;
  const n = 2 ** z;
  const x = Math.floor(((longitude + 180) / 360) * n);
  const y = Math.floor(((1 - Math.asinh(Math.tan(radians)) / Math.PI) / 2) * n);
  return { z, x, y };
}

/** A reproducible run of numbers from 0 to 1 (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
