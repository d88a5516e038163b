import type { TileSet } from './messages.ts';

/** Deepest tiles cut of each set; the map stretches them beyond. */
export const deepestZoom: Readonly<Record<TileSet, number>> = { land: 8, rain: 8, buildings: 14 };

/** From this zoom on each building is drawn, however many there are. */
export const streetZoom = 14;

/** Up to this many shown buildings, each is drawn at every zoom. */
export const drawnEach = 5000;
