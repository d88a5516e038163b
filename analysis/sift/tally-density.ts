import type { Mask } from './mask.ts';
import { binOf, type Edges } from './tally-bins.ts';
import { type Codes, codesFor, counted, sum } from './tally-codes.ts';

/** Single buildings of a scatter, where they are few enough to be told apart. */
interface Points {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** How many buildings lie in each cell of two number columns. */
export interface DensityTally {
  readonly x: Edges;
  readonly y: Edges;
  /** Buildings that pass, by cell: `kept[row * columns + column]`, row by y, column by x. */
  readonly kept: Uint32Array;
  /** All buildings, by cell. */
  readonly whole: Uint32Array;
  /** Buildings that pass and lack one of the values. */
  readonly none: number;
  /** Those that pass and lie in a cell, one by one; null where they are more than asked for. */
  readonly points: Points | null;
}

/** Two columns by ordinal (NaN none), and the edges of their bins. */
export interface Plane {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly edges: { readonly x: Edges; readonly y: Edges };
}

export interface DensityCells extends Plane {
  /** `row * columns + column`, one more for no record. */
  readonly codes: Codes;
  readonly whole: Uint32Array;
}

const cellsIn = ({ x, y }: Plane['edges']): number => (x.length - 1) * (y.length - 1);

export function densityCells({ x, y, edges }: Plane): DensityCells {
  const columns = edges.x.length - 1;
  const cells = cellsIn(edges);
  const codes = codesFor(x.length, cells + 1);
  for (let b = 0; b < x.length; b++) {
    const column = binOf(edges.x, x[b]!);
    const row = binOf(edges.y, y[b]!);
    codes[b] = column < 0 || row < 0 ? cells : row * columns + column;
  }
  return { x, y, edges, codes, whole: counted(codes, cells + 1, null).slice(0, cells) };
}

/** @param mostPoints up to how many buildings are given one by one */
export function density(cells: DensityCells, mask: Mask | null, mostPoints: number): DensityTally {
  const { x, y } = cells.edges;
  const n = cellsIn(cells.edges);
  const counts = counted(cells.codes, n + 1, mask);
  const placed = sum(counts, 0, n);
  const points = placed <= mostPoints ? pointsOf(cells, mask, n) : null;
  return { x, y, kept: counts.slice(0, n), whole: cells.whole, none: counts[n]!, points };
}

function pointsOf({ x, y, codes }: DensityCells, mask: Mask | null, none: number): Points {
  const drawn: number[] = [];
  for (let b = 0; b < codes.length; b++) {
    if (codes[b] !== none && (!mask || mask[b] === 1)) drawn.push(b);
  }
  return {
    x: Float64Array.from(drawn, (b) => x[b]!),
    y: Float64Array.from(drawn, (b) => y[b]!),
  };
}
