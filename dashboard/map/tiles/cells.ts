import { extent, type Marks } from './encode.ts';
import { type TileId, worldSize } from './mercator.ts';
import { type PlacedBuildings, those, tileRun } from './portfolio.ts';
import { drawnEach, streetZoom } from './zooms.ts';

export interface Scores {
  /** Tier and index by ordinal; a lower tier is heavier, and NaN is not scored. */
  readonly tier: Uint8Array;
  readonly index: Float64Array;
}

/** Cells to a tile's side: with tiles drawn 512 to 1,024 px wide, one mark to 13-26 px. */
const cellsAcross = 40;

/** The marks of one tile: each building, or below street zoom one mark a cell when very many are shown. */
export function marksOf(buildings: PlacedBuildings, scores: Scores, tile: TileId): Marks {
  const run = tileRun(buildings, tile);
  const each = buildings.ordinal.length <= drawnEach || tile.z >= streetZoom;
  const counted = each ? eachBuilding(run) : heaviestPerCell(buildings, scores, tile, run);
  return drawn(buildings, scores, tile, counted);
}

interface Counted {
  /** Entries of the portfolio, and how many buildings each stands for. */
  readonly entry: Uint32Array;
  readonly count: Uint32Array;
}

function eachBuilding([from, to]: readonly [number, number]): Counted {
  const entry = Uint32Array.from({ length: to - from }, (_, i) => from + i);
  return { entry, count: new Uint32Array(entry.length).fill(1) };
}

function heaviestPerCell(
  buildings: PlacedBuildings,
  scores: Scores,
  { z, x, y }: TileId,
  [from, to]: readonly [number, number],
): Counted {
  const count = new Uint32Array(cellsAcross ** 2);
  const heaviest = new Uint32Array(cellsAcross ** 2);
  const side = worldSize / 2 ** z;
  const cellsAt = (position: number, tileAt: number) =>
    Math.floor((position / side - tileAt) * cellsAcross);
  for (let i = from; i < to; i++) {
    const cell = cellsAt(buildings.y[i]!, y) * cellsAcross + cellsAt(buildings.x[i]!, x);
    if (count[cell]!++ === 0 || isHeavier(buildings, scores, i, heaviest[cell]!))
      heaviest[cell] = i;
  }
  const filled = those(count.length, (cell) => count[cell]! > 0);
  return { entry: filled.map((c) => heaviest[c]!), count: filled.map((c) => count[c]!) };
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
