import type { TileSet } from './messages.ts';

/** Deepest tiles cut of each set; the map stretches them beyond. */
export const deepestZoom: Readonly<Record<TileSet, number>> = { land: 8, rain: 8, buildings: 16 };

/** From this zoom on a tile draws each of its buildings, when it has room for them. */
export const streetZoom = 14;

/** Up to this many shown buildings, each is drawn at every zoom. */
export const drawnEach = 5000;

/** Buildings that a tile of street zoom has room for; the deepest tiles draw theirs however many there are. */
export const roomInTile = 4000;
