import { tiers } from '../session-types.ts';
import type { Mask } from './mask.ts';

/** The cell of each building by ordinal, made once a scoring: counting a million under a mask is then one plain pass. */
export type Codes = Uint16Array | Uint32Array;

/** Cells are split by tier: `cell * perTier + tier`. */
export const perTier = tiers.length;

export const codesFor = (n: number, size: number): Codes =>
  size <= 0x10000 ? new Uint16Array(n) : new Uint32Array(n);

/** How many buildings that pass have each code, 0 to size − 1; null: every building passes. */
export function counted(codes: Codes, size: number, mask: Mask | null): Uint32Array {
  const counts = new Uint32Array(size);
  if (mask) for (let b = 0; b < codes.length; b++) counts[codes[b]!]! += mask[b]!;
  else for (let b = 0; b < codes.length; b++) counts[codes[b]!]!++;
  return counts;
}

export const sum = (counts: ArrayLike<number>, from = 0, to = counts.length): number => {
  let total = 0;
  for (let i = from; i < to; i++) total += counts[i]!;
  return total;
};

/** Sums over groups of `width` neighbours: cells from cells by tier, rows from rows by band. */
export const summed = (counts: Uint32Array, width: number): Uint32Array =>
  Uint32Array.from({ length: counts.length / width }, (_, i) =>
    sum(counts, i * width, (i + 1) * width),
  );

/** Rows of `width` counts, put in this order. */
export function rowsOf(counts: Uint32Array, width: number, order: readonly number[]): Uint32Array {
  const out = new Uint32Array(order.length * width);
  for (const [i, row] of order.entries()) {
    out.set(counts.subarray(row * width, (row + 1) * width), i * width);
  }
  return out;
}
