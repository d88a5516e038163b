import { extent, type Marks } from './encode.ts';
import { type TileId, worldSize } from './mercator.ts';
import { type PlacedBuildings, tileRun } from './portfolio.ts';
import { drawnEach, streetZoom } from './zooms.ts';

export interface Scores {
  /** Tier and index by ordinal; a lower tier is heavier, and NaN is not scored. */
  readonly tier: Uint8Array;
  readonly index: Float64Array;
}

/** Cells to a tile's side: with tiles drawn 512 to 1,024 px wide, one mark to 13-26 px. */
const cellsAcross = 40;

/**
 * The marks of one tile: one a building, or below street zoom one a cell when very many are shown. Buildings on the
 * same spot share a mark at any zoom: drawn one over the other they would look like one.
 */
export function marksOf(buildings: PlacedBuildings, scores: Scores, tile: TileId): Marks {
  const each = buildings.ordinal.length <= drawnEach || tile.z >= streetZoom;
  const counted = heaviestPerCell(buildings, scores, tile, each ? extent : cellsAcross);
  return drawn(buildings, scores, tile, counted);
}

interface Counted {
  /** Entries of the portfolio, and how many buildings each stands for. */
  readonly entry: Uint32Array;
  readonly count: Uint32Array;
}

function heaviestPerCell(
  buildings: PlacedBuildings,
  scores: Scores,
  tile: TileId,
  across: number,
): Counted {
  const [from, to] = tileRun(buildings, tile);
  const slots = new Map<number, number>();
  const [entry, count]: [number[], number[]] = [[], []];
  const cellOf = cellIn(tile, across);
  for (let i = from; i < to; i++) {
    const cell = cellOf(buildings.x[i]!, buildings.y[i]!);
    const slot = slots.get(cell);
    if (slot === undefined) {
      slots.set(cell, entry.push(i) - 1);
      count.push(1);
    } else {
      count[slot]!++;
      if (isHeavier(buildings, scores, i, entry[slot]!)) entry[slot] = i;
    }
  }
  return { entry: Uint32Array.from(entry), count: Uint32Array.from(count) };
}

/** Numbers the cells of a tile, `across` to a side, for Mercator positions within it. */
function cellIn({ z, x, y }: TileId, across: number): (px: number, py: number) => number {
  const side = worldSize / 2 ** z / across;
  const [left, top] = [x * across, y * across];
  return (px, py) => (Math.floor(py / side) - top) * across + Math.floor(px / side) - left;
}

/** Tier first, then index, then ordinal, so that the same portfolio always draws the same mark. */
function isHeavier(buildings: PlacedBuildings, scores: Scores, i: number, j: number): boolean {
  const [a, b] = [buildings.ordinal[i]!, buildings.ordinal[j]!];
  const byTier = scores.tier[b]! - scores.tier[a]!;
  if (byTier !== 0) return byTier > 0;
  const byIndex = indexOf(scores, a) - indexOf(scores, b);
  return byIndex !== 0 ? byIndex > 0 : a < b;
}

const indexOf = (scores: Scores, b: number) =>
  Number.isNaN(scores.index[b]!) ? -1 : scores.index[b]!;

function drawn(
  buildings: PlacedBuildings,
  scores: Scores,
  tile: TileId,
  { entry, count }: Counted,
): Marks {
  const tierOf = (k: number) => scores.tier[buildings.ordinal[entry[k]!]!]!;
  const order = Uint32Array.from(entry.keys()).sort((a, b) => tierOf(b) - tierOf(a) || a - b);
  const ordinal = order.map((k) => buildings.ordinal[entry[k]!]!);
  const unit = worldSize / 2 ** tile.z / extent;
  const within = (position: Uint32Array, tileAt: number) =>
    Int32Array.from(order, (k) => Math.floor(position[entry[k]!]! / unit) - tileAt * extent);
  return {
    n: order.length,
    x: within(buildings.x, tile.x),
    y: within(buildings.y, tile.y),
    ordinal,
    tier: Uint8Array.from(ordinal, (b) => scores.tier[b]!),
    count: order.map((k) => count[k]!),
  };
}
