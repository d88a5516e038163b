import type { Bounds } from '../../../analysis/place/bounds.ts';
import { boundsOfTile, type TileId } from '../tiles/mercator.ts';
import { filledBetween, grownByOne, type RainNodes } from './grid.ts';

/** Width of a tile, CSS pixels. */
const tilePx = 512;
/** Nodes nearer than this are thinned, px. */
const closest = 1.5;
/** Distance to which nodes are filled in, px: less gains nothing after the corners are rounded. */
const filledTo = 5;
const mostBetween = 10;
/** Contoured around the tile, px and nodes: what closes an area at the window's edge must lie off the tile. */
const aroundPx = 32;
const aroundNodes = 3;

/**
 * The nodes a tile's rain is drawn from: those over it and somewhat around, thinned or filled in to the tile's scale.
 * None where the sheet does not reach; two where it ends and begins again within the tile.
 */
export function nodesOver(sheet: RainNodes, tile: TileId): RainNodes[] {
  const pxPerNode = (Math.abs(sheet.stepX) / 360) * 2 ** tile.z * tilePx;
  const step = 2 ** Math.max(0, Math.ceil(Math.log2(closest / pxPerNode)));
  const factor = Math.min(mostBetween, Math.max(1, Math.round((pxPerNode * step) / filledTo)));
  const around = Math.max(aroundNodes, Math.ceil(aroundPx / (pxPerNode * step)));
  const bounds = boundsOfTile(tile);
  return windowsOf(sheet, bounds, step, around).map((nodes) =>
    filledBetween(grownByOne(nodes), factor),
  );
}

/** Whether the node after the last of a row is its first. */
const goesRound = ({ width, stepX }: RainNodes): boolean =>
  Math.abs(width * stepX - 360) < Math.abs(stepX) / 1000;

/**
 * The windows of a sheet within bounds, whose longitudes may lie beyond ±180: one of a sheet that goes around the globe and
 * is wider than it, none where the sheet does not reach, two where it ends and begins again within them.
 */
export function windowsOf(
  sheet: RainNodes,
  bounds: Bounds,
  step: number,
  around: number,
): RainNodes[] {
  const wide = bounds.east - bounds.west + 2 * (around + 1) * step * Math.abs(sheet.stepX);
  if (goesRound(sheet) && wide < 360) return [windowOf(sheet, bounds, step, around, true)];
  return [-360, 0, 360]
    .map((turn) => windowOf({ ...sheet, west: sheet.west + turn }, bounds, step, around))
    .filter((nodes) => nodes.width > 1 && nodes.height > 1);
}

/** Every `step`-th node within the bounds and `around` more on each side; `round` goes on where the sheet ends. */
export function windowOf(
  nodes: RainNodes,
  bounds: Bounds,
  step: number,
  around: number,
  round = false,
): RainNodes {
  const [stepX, stepY] = [nodes.stepX * step, nodes.stepY * step];
  const across = round ? Infinity : nodes.width / step;
  const columns = span(bounds.west, bounds.east, nodes.west, stepX, across, around);
  const rows = span(bounds.north, bounds.south, nodes.north, stepY, nodes.height / step, around);
  const [width, height] = [columns.n, rows.n];
  const mm = new Float32Array(width * height);
  for (let i = 0; i < mm.length; i++) {
    const row = (rows.from + Math.floor(i / width)) * step;
    const column = (columns.from + (i % width)) * step;
    mm[i] = nodes.mm[row * nodes.width + remainder(column, nodes.width)]!;
  }
  const west = nodes.west + columns.from * stepX;
  return { width, height, west, north: nodes.north + rows.from * stepY, stepX, stepY, mm };
}

const remainder = (i: number, n: number): number => ((i % n) + n) % n;

/** The run of nodes, of `count` that begin at `origin`, between two positions; of endlessly many it may begin before. */
function span(
  first: number,
  last: number,
  origin: number,
  step: number,
  count: number,
  around: number,
): { readonly from: number; readonly n: number } {
  const from = Math.max(
    Number.isFinite(count) ? 0 : -Infinity,
    Math.floor((first - origin) / step) - around,
  );
  const to = Math.min(Math.ceil(count) - 1, Math.ceil((last - origin) / step) + around);
  return { from, n: Math.max(0, to - from + 1) };
}
