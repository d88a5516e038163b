import type { ExpressionSpecification } from 'maplibre-gl';
import { layerName } from './tiles/encode.ts';
import type { TileSet } from './tiles/messages.ts';

/** The style language's own lists, written short. */
export const expression = (...parts: readonly unknown[]) =>
  parts as unknown as ExpressionSpecification;
export const get = (name: string) => expression('get', name);
export const is = (name: string, value: unknown) => expression('==', get(name), value);
export const byZoom = (...stops: number[]) =>
  expression('interpolate', ['linear'], ['zoom'], ...stops);

/** A layer's source among the map's own tiles. */
export const of = (source: TileSet) => ({ source, 'source-layer': layerName });
