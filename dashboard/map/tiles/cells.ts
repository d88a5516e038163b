import { noIndex } from '../../../analysis/rank/cents.ts';
import { tiers } from '../../../analysis/session-types.ts';
import { extent, type Marks } from './encode.ts';
import type { Entries } from './entries.ts';
import { codedZoom, type TileId } from './mercator.ts';
import { tileRun } from './portfolio.ts';
import { deepestZoom, drawnEach, roomInTile, streetZoom } from './zooms.ts';

/** Halvings of a tile's side to a cell: with tiles drawn 512 to 1,024 px wide, one mark to 32-64 px. */
const cellBits = 4;
/** Halvings to one unit of the tile: buildings that share it would look like one. */
const spotBits = Math.log2(extent);

/** The buildings under one mark. */
export interface CellSummary {
  /** The heaviest of them: the foremost tier, then the greatest index, then the first ordinal. */
  readonly b: number;
  readonly n: number;
  /** Buildings by tier, in the order of `tiers`. */
  readonly counts: readonly number[];
  /** Mean index of the scored ones, 0-100 to one decimal; NaN when none is scored. */
  readonly meanIndex: number;
}

/**
 * The marks of one tile: one a building, or one a cell when very many are shown. Buildings on the same spot share a
 * mark at any zoom: drawn one over the other they would look like one.
 */
export function marksOf(entries: Entries, tile: TileId): Marks {
  const [from, to] = tileRun(entries.placed, tile);
  const shift = 32 - levelOf(entries, tile.z, from, to);
  return drawn(entries, tile, cellsOf(entries, from, to, shift), shift);
}

/** What lies under the mark of building `b` in the tiles of zoom `z`; undefined when the building is not shown. */
export function cellAt(entries: Entries, z: number, b: number): CellSummary | undefined {
  const { placed, shown } = entries;
  const entry = placed.entryOf[b] ?? -1;
  if (entry < 0 || shown.mask?.[entry] === 0) return undefined;
  const level = levelOf(entries, z, ...tileRun(placed, tileAround(entries, entry, z)));
  const shift = 32 - level;
  const [x, y] = [placed.x[entry]! >>> shift, placed.y[entry]! >>> shift];
  const [from, to] = tileRun(placed, tileAround(entries, entry, Math.min(level, codedZoom)));
  const inside: number[] = [];
  for (let i = from; i < to; i++) {
    const same = placed.x[i]! >>> shift === x && placed.y[i]! >>> shift === y;
    if (same && shown.mask?.[i] !== 0) inside.push(i);
  }
  return summaryOf(entries, inside);
}

function tileAround({ placed }: Entries, entry: number, z: number): TileId {
  const at = (position: number) => Math.floor(position / 2 ** (32 - z));
  return { z, x: at(placed.x[entry]!), y: at(placed.y[entry]!) };
}

function summaryOf(entries: Entries, inside: readonly number[]): CellSummary {
  const { tier } = entries.scores;
  const counts = tiers.map(() => 0);
  const cell = newCell(inside[0]!);
  for (const i of inside) {
    counts[tier[i]!]!++;
    add(cell, entries, i);
  }
  const b = entries.placed.ordinal[cell.heaviest]!;
  return { b, n: cell.n, counts, meanIndex: tenths(cell) };
}

/** Halvings of the world's side to what one mark stands for. */
function levelOf({ shown }: Entries, z: number, from: number, to: number): number {
  const each =
    shown.n <= drawnEach ||
    z >= deepestZoom.buildings ||
    (z >= streetZoom && shownWithin(shown.mask, from, to) <= roomInTile);
  return z + (each ? spotBits : cellBits);
}

function shownWithin(mask: Uint8Array | null, from: number, to: number): number {
  if (!mask) return to - from;
  let n = 0;
  for (let i = from; i < to; i++) n += mask[i]!;
  return n;
}

/** Entries that share a mark. Sums are of whole numbers. */
interface Cell {
  n: number;
  heaviest: number;
  /** Of the scored entries. */
  scored: number;
  cents: number;
  /** Of the Mercator positions. */
  x: number;
  y: number;
}

const newCell = (i: number): Cell => ({ n: 0, heaviest: i, scored: 0, cents: 0, x: 0, y: 0 });

function add(cell: Cell, entries: Entries, i: number): void {
  const { placed, scores } = entries;
  cell.n++;
  cell.x += placed.x[i]!;
  cell.y += placed.y[i]!;
  if (scores.cents[i] !== noIndex) {
    cell.scored++;
    cell.cents += scores.cents[i]!;
  }
  if (isHeavier(entries, i, cell.heaviest)) cell.heaviest = i;
}

/** Mean index to one decimal: from hundredths to tenths while whole, so that a half rounds up wherever it is computed. */
const tenths = ({ cents, scored }: Cell): number =>
  scored > 0 ? Math.round(cents / scored / 10) / 10 : Number.NaN;

/** One walk along the run: the entries of a cell follow one another. */
function cellsOf(entries: Entries, from: number, to: number, shift: number): Cell[] {
  const { x, y } = entries.placed;
  const { mask } = entries.shown;
  const cells: Cell[] = [];
  let [cell, cellX, cellY]: [Cell | undefined, number, number] = [undefined, -1, -1];
  for (let i = from; i < to; i++) {
    if (mask !== null && mask[i] === 0) continue;
    const column = x[i]! >>> shift;
    const row = y[i]! >>> shift;
    if (!cell || column !== cellX || row !== cellY) {
      cell = newCell(i);
      cells.push(cell);
      cellX = column;
      cellY = row;
    }
    add(cell, entries, i);
  }
  return cells;
}

/** Tier first, then index, then ordinal, so that the same portfolio always draws the same mark. */
function isHeavier({ scores, placed }: Entries, i: number, j: number): boolean {
  const byTier = scores.tier[j]! - scores.tier[i]!;
  if (byTier !== 0) return byTier > 0;
  const byIndex = scores.cents[i]! - scores.cents[j]!;
  return byIndex !== 0 ? byIndex > 0 : placed.ordinal[i]! < placed.ordinal[j]!;
}

/** The lightest first, so that the foremost tier is drawn on top. */
function drawn(
  { placed, scores }: Entries,
  tile: TileId,
  cells: readonly Cell[],
  shift: number,
): Marks {
  const tierOf = ({ heaviest }: Cell) => scores.tier[heaviest]!;
  const order = cells.toSorted((a, b) => tierOf(b) - tierOf(a));
  const within = (axis: 'x' | 'y', tileAt: number) =>
    Int32Array.from(order, (cell) => unitOf(middleOf(cell, axis, shift), tile.z, tileAt));
  return {
    n: order.length,
    z: tile.z,
    x: within('x', tile.x),
    y: within('y', tile.y),
    ordinal: Uint32Array.from(order, ({ heaviest }) => placed.ordinal[heaviest]!),
    tier: Uint8Array.from(order, tierOf),
    count: Uint32Array.from(order, ({ n }) => n),
    meanIndex: Float64Array.from(order, tenths),
  };
}

/** Share of a cell's side by which a mark of several may stand off the cell's centre. */
const leeway = 0.2;

/** The middle of a cell's buildings on one axis, drawn towards its centre, so that marks of neighbours keep apart. */
function middleOf(cell: Cell, axis: 'x' | 'y', shift: number): number {
  const middle = cell[axis] / cell.n;
  if (cell.n === 1) return middle;
  const side = 2 ** shift;
  const centre = (Math.floor(middle / side) + 0.5) * side;
  return Math.min(Math.max(middle, centre - leeway * side), centre + leeway * side);
}

/** Tile units of a Mercator position. */
const unitOf = (position: number, z: number, tileAt: number): number =>
  Math.floor(position / 2 ** (32 - z - spotBits)) - tileAt * extent;
