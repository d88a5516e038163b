import type { FeatureCollection } from 'geojson';
import type { StyleSpecification, VectorSourceSpecification } from 'maplibre-gl';
import { sheetLayers } from './layers.ts';
import { placeFeatures } from './places.ts';
import { sheetThemes, type ThemeName } from './theme.ts';
import type { TileSet } from './tiles/messages.ts';
import { deepestZoom } from './tiles/zooms.ts';

const nothing: FeatureCollection = { type: 'FeatureCollection', features: [] };

/** The whole sheet as a style: no sprite, no glyphs, no address but the map's own tile protocol. */
export function sheetStyle(protocol: string, theme: ThemeName): StyleSpecification {
  const tiles = (set: TileSet): VectorSourceSpecification => ({
    type: 'vector',
    tiles: [`${protocol}://${set}/{z}/{x}/{y}`],
    maxzoom: deepestZoom[set],
  });
  return {
    version: 8,
    name: 'Rain sheet',
    sources: {
      land: tiles('land'),
      rain: tiles('rain'),
      buildings: tiles('buildings'),
      places: { type: 'geojson', data: placeFeatures() },
      picked: { type: 'geojson', data: nothing },
    },
    layers: sheetLayers(sheetThemes[theme], theme),
  };
}

/** Reads `protocol://set/z/x/y`. Throws on an address this map did not write. */
export function tileOf(url: string): { set: TileSet; z: number; x: number; y: number } {
  const [, set, ...numbers] =
    /^[\w-]+:\/\/(land|rain|buildings)\/(\d+)\/(\d+)\/(\d+)$/.exec(url) ?? [];
  if (!set) throw new Error(`not a tile of this map: ${url}`);
  const [z, x, y] = numbers.map(Number) as [number, number, number];
  return { set: set as TileSet, z, x, y };
}
