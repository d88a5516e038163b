import type { Bounds } from '../../../analysis/place/bounds.ts';

/** Web Mercator on a square of 2^32 units a side, y growing south: any tile of any zoom is a bit prefix of both axes. */
export const worldSize = 2 ** 32;

/** Latitude at which the square ends (ICSM/EPSG:3857 practice). */
const edgeLatitude = 85.051129;

const clamp = (value: number, low: number, high: number) => Math.min(high, Math.max(low, value));

/** Longitude in degrees → x, 0 … 2^32 − 1. */
export function mercatorX(longitude: number): number {
  return clamp(Math.floor(((longitude + 180) / 360) * worldSize), 0, worldSize - 1);
}

/** Latitude in degrees → y, 0 … 2^32 − 1, from the north. */
export function mercatorY(latitude: number): number {
  const sine = Math.sin((clamp(latitude, -edgeLatitude, edgeLatitude) * Math.PI) / 180);
  const y = 0.5 - Math.log((1 + sine) / (1 - sine)) / (4 * Math.PI);
  return clamp(Math.floor(y * worldSize), 0, worldSize - 1);
}

/** Zoom to which a tile is one contiguous run of sorted codes: 16 bits an axis make one 32-bit code. */
export const codedZoom = 16;

const spread = (value: number): number => {
  let v = value & 0xffff;
  v = (v | (v << 8)) & 0x00ff00ff;
  v = (v | (v << 4)) & 0x0f0f0f0f;
  v = (v | (v << 2)) & 0x33333333;
  return (v | (v << 1)) & 0x55555555;
};

/** Interleaved bits (Morton code) of tile column and row at `codedZoom`, 0 … 2^32 − 1. */
export function tileCode(column: number, row: number): number {
  return ((spread(row) << 1) | spread(column)) >>> 0;
}

export interface TileId {
  readonly z: number;
  readonly x: number;
  readonly y: number;
}

/** First code inside a tile and first code after it; for zooms past `codedZoom`, those of its ancestor there. */
export function codeRange({ z, x, y }: TileId): readonly [from: number, to: number] {
  const up = Math.max(0, z - codedZoom);
  const down = Math.max(0, codedZoom - z);
  const from = tileCode((x >>> up) << down, (y >>> up) << down);
  return [from, from + 4 ** down];
}

/** The box of a tile, degrees. */
export function boundsOfTile({ z, x, y }: TileId): Bounds {
  const longitude = (column: number) => (column / 2 ** z) * 360 - 180;
  const latitude = (row: number) =>
    (Math.atan(Math.sinh(Math.PI * (1 - (2 * row) / 2 ** z))) * 180) / Math.PI;
  return { west: longitude(x), east: longitude(x + 1), north: latitude(y), south: latitude(y + 1) };
}
