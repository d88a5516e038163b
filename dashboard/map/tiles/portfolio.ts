import {
  type Bounds,
  codedZoom,
  codeRange,
  mercatorX,
  mercatorY,
  type TileId,
  tileCode,
} from './mercator.ts';

/** The buildings that have a place, in the order of their tile codes: any tile is one run of this order. */
export interface PlacedBuildings {
  /** Building ordinals, and per entry their code and Mercator position. */
  readonly ordinal: Uint32Array;
  readonly code: Uint32Array;
  readonly x: Uint32Array;
  readonly y: Uint32Array;
}

const shiftToCode = 32 - codedZoom;
const hasPlace = (longitude: number, latitude: number) =>
  Number.isFinite(longitude) && Number.isFinite(latitude);

/** How many buildings have a longitude and latitude. */
export function countPlaced(places: {
  readonly longitude: Float64Array;
  readonly latitude: Float64Array;
}): number {
  let n = 0;
  for (let b = 0; b < places.longitude.length; b++) {
    if (hasPlace(places.longitude[b]!, places.latitude[b]!)) n++;
  }
  return n;
}

/**
 * Sorts buildings by tile code; those without a longitude and latitude are left out.
 * @param longitude degrees, by ordinal; NaN is no record
 * @param latitude degrees, by ordinal; NaN is no record
 */
export function placeBuildings(longitude: Float64Array, latitude: Float64Array): PlacedBuildings {
  const ordinal = those(longitude.length, (b) => hasPlace(longitude[b]!, latitude[b]!));
  const x = ordinal.map((b) => mercatorX(longitude[b]!));
  const y = ordinal.map((b) => mercatorY(latitude[b]!));
  const code = x.map((column, i) => tileCode(column >>> shiftToCode, y[i]! >>> shiftToCode));
  return take({ ordinal, code, x, y }, sortedBy(code));
}

/** Those buildings for which `mask` (by ordinal) is not 0, still in code order. */
export function keepShown(buildings: PlacedBuildings, mask: Uint8Array): PlacedBuildings {
  return take(
    buildings,
    those(buildings.ordinal.length, (i) => mask[buildings.ordinal[i]!] !== 0),
  );
}

/** The run `[from, to)` of entries inside a tile of zoom ≤ `codedZoom`. */
export function tileRun(buildings: PlacedBuildings, tile: TileId): readonly [number, number] {
  const [from, to] = codeRange(tile);
  return [lowerBound(buildings.code, from), lowerBound(buildings.code, to)];
}

/** The box around all places, or undefined when there are none. */
export function boundsOf(longitude: Float64Array, latitude: Float64Array): Bounds | undefined {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let b = 0; b < longitude.length; b++) {
    const [lon, lat] = [longitude[b]!, latitude[b]!];
    if (!hasPlace(lon, lat)) continue;
    west = Math.min(west, lon);
    east = Math.max(east, lon);
    south = Math.min(south, lat);
    north = Math.max(north, lat);
  }
  return west <= east ? { west, south, east, north } : undefined;
}

function take(from: PlacedBuildings, order: Uint32Array): PlacedBuildings {
  return {
    ordinal: order.map((i) => from.ordinal[i]!),
    code: order.map((i) => from.code[i]!),
    x: order.map((i) => from.x[i]!),
    y: order.map((i) => from.y[i]!),
  };
}

/** The numbers below `n` that pass. */
function those(n: number, passes: (i: number) => boolean): Uint32Array {
  const kept = new Uint32Array(n);
  let length = 0;
  for (let i = 0; i < n; i++) if (passes(i)) kept[length++] = i;
  return kept.slice(0, length);
}

/** Radix sort in two passes of 16 bits: a comparator sort of a million codes takes ten times as long. */
function sortedBy(key: Uint32Array): Uint32Array {
  const low = countingPass(
    those(key.length, () => true),
    (i) => key[i]! & 0xffff,
  );
  return countingPass(low, (i) => key[i]! >>> 16);
}

function countingPass(order: Uint32Array, digit: (i: number) => number): Uint32Array {
  const start = new Uint32Array(65537);
  for (const i of order) start[digit(i) + 1]!++;
  for (let d = 0; d < 65536; d++) start[d + 1]! += start[d]!;
  const sorted = new Uint32Array(order.length);
  for (const i of order) sorted[start[digit(i)]!++] = i;
  return sorted;
}

function lowerBound(code: Uint32Array, value: number): number {
  let [low, high] = [0, code.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (code[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}
