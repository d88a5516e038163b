import { extent, type TileFeature, type TilePoint } from './encode.ts';

/** Rows that a tile is read in: two pixels each. */
const rows = 256;
const rowHeight = extent / rows;

/**
 * Tells of points of a tile whether they lie in any of its areas, which must not overlap. Edges are sorted into rows
 * once, so that thousands of points cost little; a point within a row of an edge may be told wrongly.
 */
export function insideOf(areas: readonly TileFeature[]): (point: TilePoint) => boolean {
  const crossings: number[][] = Array.from({ length: rows }, () => []);
  for (const { geometry } of areas) for (const ring of geometry) addCrossings(crossings, ring);
  return ({ x, y }) => {
    const row = crossings[Math.floor(y / rowHeight)] ?? [];
    let beyond = 0;
    for (const crossing of row) if (crossing > x) beyond++;
    return beyond % 2 === 1;
  };
}

/** Where a closed ring crosses the middle of each row. */
function addCrossings(crossings: number[][], ring: readonly TilePoint[]): void {
  for (let i = 1; i < ring.length; i++) {
    const [a, b] = [ring[i - 1]!, ring[i]!];
    const [top, bottom] = a.y < b.y ? [a, b] : [b, a];
    const from = Math.max(0, Math.ceil(top.y / rowHeight - 0.5));
    const to = Math.min(rows, Math.ceil(bottom.y / rowHeight - 0.5));
    for (let row = from; row < to; row++) {
      const share = ((row + 0.5) * rowHeight - top.y) / (bottom.y - top.y);
      crossings[row]!.push(top.x + (bottom.x - top.x) * share);
    }
  }
}
