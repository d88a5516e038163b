import type { Mask } from './mask.ts';
import { binOf, type Edges } from './tally-bins.ts';
import { type Codes, codesFor, counted, perTier, sum, summed } from './tally-codes.ts';

/** How many buildings lie in each bin of a number column. */
export interface HistogramTally {
  readonly edges: Edges;
  /** Buildings that pass, by bin and tier: `kept[bin * perTier + tier]`. */
  readonly kept: Uint32Array;
  /** All buildings, by bin. */
  readonly whole: Uint32Array;
  /** Buildings that pass and have no value. */
  readonly none: number;
}

export interface HistogramCells {
  readonly edges: Edges;
  /** `bin * perTier + tier`, one bin more for no record. */
  readonly codes: Codes;
  readonly whole: Uint32Array;
}

/**
 * @param values by ordinal, NaN none
 * @param tier code by ordinal
 */
export function histogramCells(
  values: Float64Array,
  edges: Edges,
  tier: Int32Array,
): HistogramCells {
  const bins = edges.length - 1;
  const size = (bins + 1) * perTier;
  const codes = codesFor(values.length, size);
  for (let b = 0; b < values.length; b++) {
    const bin = binOf(edges, values[b]!);
    codes[b] = (bin < 0 ? bins : bin) * perTier + tier[b]!;
  }
  return { edges, codes, whole: summed(counted(codes, size, null), perTier).slice(0, bins) };
}

export function histogram(
  { edges, codes, whole }: HistogramCells,
  mask: Mask | null,
): HistogramTally {
  const end = (edges.length - 1) * perTier;
  const counts = counted(codes, end + perTier, mask);
  return { edges, kept: counts.slice(0, end), whole, none: sum(counts, end) };
}
