import { hasPlace } from '../../../analysis/place/bounds.ts';
import { codedZoom, codeRange, mercatorX, mercatorY, type TileId, tileCode } from './mercator.ts';

/**
 * The buildings that have a place, along the curve that visits every tile of every zoom in one go (Morton order of both
 * axes, 32 bits each): a tile, or a cell of whatever fineness, is one run of entries.
 */
export interface PlacedBuildings {
  /** Building ordinals, and per entry their code at `codedZoom` and Mercator position. */
  readonly ordinal: Uint32Array;
  readonly code: Uint32Array;
  readonly x: Uint32Array;
  readonly y: Uint32Array;
  /** By ordinal: the entry, or -1 without a place. */
  readonly entryOf: Int32Array;
}

const shiftToCode = 32 - codedZoom;

/**
 * Sorts buildings along the curve; those without a longitude and latitude are left out.
 * @param longitude degrees, by ordinal; NaN is no record
 * @param latitude degrees, by ordinal; NaN is no record
 */
export function placeBuildings(longitude: Float64Array, latitude: Float64Array): PlacedBuildings {
  const given = placedOrdinals(longitude, latitude);
  const x = given.map((b) => mercatorX(longitude[b]!));
  const y = given.map((b) => mercatorY(latitude[b]!));
  const coarse = x.map((column, i) => tileCode(column >>> shiftToCode, y[i]! >>> shiftToCode));
  const fine = x.map((column, i) => tileCode(column, y[i]!));
  const order = sortedBy(
    coarse,
    sortedBy(
      fine,
      given.map((_, i) => i),
    ),
  );
  const take = (column: Uint32Array) => order.map((i) => column[i]!);
  const ordinal = take(given);
  const entryOf = inverse(ordinal, longitude.length);
  return { ordinal, code: take(coarse), x: take(x), y: take(y), entryOf };
}

/** The run `[from, to)` of entries inside a tile; for zooms past `codedZoom`, inside its ancestor there. */
export function tileRun(buildings: PlacedBuildings, tile: TileId): readonly [number, number] {
  const [from, to] = codeRange(tile);
  return [lowerBound(buildings.code, from), lowerBound(buildings.code, to)];
}

function placedOrdinals(longitude: Float64Array, latitude: Float64Array): Uint32Array {
  const kept = new Uint32Array(longitude.length);
  let length = 0;
  for (let b = 0; b < kept.length; b++) {
    if (hasPlace(longitude[b]!, latitude[b]!)) kept[length++] = b;
  }
  return kept.slice(0, length);
}

function inverse(ordinal: Uint32Array, n: number): Int32Array {
  const entryOf = new Int32Array(n).fill(-1);
  for (let i = 0; i < ordinal.length; i++) entryOf[ordinal[i]!] = i;
  return entryOf;
}

/** Radix sort in two stable passes of 16 bits: a comparator sort of a million codes takes ten times as long. */
const sortedBy = (key: Uint32Array, order: Uint32Array): Uint32Array =>
  countingPass(key, 16, countingPass(key, 0, order));

function countingPass(key: Uint32Array, shift: number, order: Uint32Array): Uint32Array {
  const start = new Uint32Array(65537);
  for (let i = 0; i < key.length; i++) start[((key[i]! >>> shift) & 0xffff) + 1]!++;
  for (let d = 0; d < 65536; d++) start[d + 1]! += start[d]!;
  const sorted = new Uint32Array(order.length);
  for (let k = 0; k < order.length; k++) {
    const i = order[k]!;
    sorted[start[(key[i]! >>> shift) & 0xffff]!++] = i;
  }
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
