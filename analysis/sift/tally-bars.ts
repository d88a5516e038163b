import type { Category } from './held.ts';
import type { Mask } from './mask.ts';
import { type Codes, codesFor, counted, perTier, rowsOf, sum, summed } from './tally-codes.ts';

/** How many buildings of each tier lie under each word of a category. */
export interface BarsTally {
  /** The word of each row, most First look first, then most buildings; null: no record. */
  readonly words: readonly (string | null)[];
  /** Buildings that pass: `kept[row * perTier + tier]`. */
  readonly kept: Uint32Array;
  /** All buildings, by row. */
  readonly whole: Uint32Array;
}

export interface BarsCells {
  readonly words: readonly string[];
  /** `row * perTier + tier`; row 0 is no record, the others the words in their order. */
  readonly codes: Codes;
  readonly whole: Uint32Array;
}

/** @param tier code by ordinal */
export function barsCells({ codes: word, words }: Category, tier: Int32Array): BarsCells {
  const size = (words.length + 1) * perTier;
  const codes = codesFor(tier.length, size);
  for (let b = 0; b < tier.length; b++) codes[b] = (word[b]! + 1) * perTier + tier[b]!;
  return { words, codes, whole: summed(counted(codes, size, null), perTier) };
}

export function bars({ words, codes, whole }: BarsCells, mask: Mask | null): BarsTally {
  const counts = counted(codes, (words.length + 1) * perTier, mask);
  const order = firstLookFirst(counts, whole);
  return {
    words: order.map((row) => words[row - 1] ?? null),
    kept: rowsOf(counts, perTier, order),
    whole: rowsOf(whole, 1, order),
  };
}

/** Rows that hold a building: by First look, then by those that pass, then by all; equal rows by their words. */
function firstLookFirst(counts: Uint32Array, whole: Uint32Array): readonly number[] {
  return Array.from(whole, (all, row) => {
    const from = row * perTier;
    return { row, all, first: counts[from]!, passing: sum(counts, from, from + perTier) };
  })
    .filter(({ all }) => all > 0)
    .sort((a, b) => b.first - a.first || b.passing - a.passing || b.all - a.all)
    .map(({ row }) => row);
}
