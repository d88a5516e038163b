import { bandsOf, type NamedBand } from '../bands.ts';
import { tiers } from '../session-types.ts';
import type { Category } from './held.ts';
import type { Mask } from './mask.ts';
import { type Codes, codesFor, counted, perTier, rowsOf, sum, summed } from './tally-codes.ts';

/** How many buildings lie in each band of a number column, by the words of a category. */
export interface MatrixTally {
  readonly bands: readonly NamedBand[];
  /** The word of each row, most buildings of the whole portfolio first; null: no record. */
  readonly words: readonly (string | null)[];
  /** Buildings that pass: `kept[row * (bands.length + 1) + band]`, the last band without a record. */
  readonly kept: Uint32Array;
  /** Those of `kept` that are to be looked at, First look or Next look. */
  readonly pressing: Uint32Array;
  /** All buildings. */
  readonly whole: Uint32Array;
}

export interface MatrixCells {
  readonly bands: readonly NamedBand[];
  readonly words: readonly (string | null)[];
  /** `(row * (bands.length + 1) + band) * perTier + tier`; row 0 is no record, the others the words in their order. */
  readonly codes: Codes;
  readonly size: number;
  /** The rows that hold a building, most first. */
  readonly order: readonly number[];
  readonly whole: Uint32Array;
}

/**
 * @param values by ordinal, NaN no record
 * @param tier code by ordinal
 */
export function matrixCells(
  values: Float64Array,
  bands: readonly NamedBand[],
  category: Category,
  tier: Int32Array,
): MatrixCells {
  const width = bands.length + 1;
  const size = (category.words.length + 1) * width * perTier;
  const band = bandsOf(values, bands);
  const codes = codesFor(values.length, size);
  for (let b = 0; b < values.length; b++) {
    const column = band[b]! < 0 ? bands.length : band[b]!;
    codes[b] = ((category.codes[b]! + 1) * width + column) * perTier + tier[b]!;
  }
  const whole = summed(counted(codes, size, null), perTier);
  const order = fullestFirst(summed(whole, width));
  const words = order.map((row) => category.words[row - 1] ?? null);
  return { bands, words, codes, size, order, whole: rowsOf(whole, width, order) };
}

/** Rows that hold a building; rows of equal size stay in the order of their words. */
const fullestFirst = (totals: Uint32Array): readonly number[] =>
  [...totals.keys()].filter((row) => totals[row]! > 0).sort((a, b) => totals[b]! - totals[a]!);

const pressingTiers = tiers.indexOf('Next look') + 1;

export function matrix(cells: MatrixCells, mask: Mask | null): MatrixTally {
  const { bands, words, whole } = cells;
  const width = bands.length + 1;
  const counts = rowsOf(counted(cells.codes, cells.size, mask), width * perTier, cells.order);
  const kept = summed(counts, perTier);
  const pressing = kept.map((_, cell) =>
    sum(counts, cell * perTier, cell * perTier + pressingTiers),
  );
  return { bands, words, kept, pressing, whole };
}
