import csv from '../../data/vocabulary.csv?raw';
import { csvTable } from '../csv-table.ts';
import { alternatives, fold, remembering } from '../place/fold.ts';

/** Text as the user writes it to the contract's word, or null. */
export type WordReader = (text: string) => string | null;

const rows = csvTable(csv);

const rowsOf = (column: string) => rows.filter((row) => row.column === column);

/** The contract's words of a column, in the order of data/vocabulary.csv. */
export const wordsOf = remembering((column): readonly string[] =>
  rowsOf(column).map((row) => row.value!),
);

/**
 * Reads words of one column of data/vocabulary.csv by their folded form (`place/fold.ts`).
 * Throws when the column has no vocabulary or one spelling means two things: a mistake in our files.
 */
export function wordReader(column: string): WordReader {
  const meanings = new Map<string, string>();
  for (const { value, also } of rowsOf(column)) {
    for (const word of [value!, ...alternatives(also!)].map(fold)) {
      if ((meanings.get(word) ?? value) !== value)
        throw new Error(`${column}: ${word} means two things`);
      meanings.set(word, value!);
    }
  }
  if (meanings.size === 0) throw new Error(`no vocabulary for ${column}`);
  return remembering((text) => meanings.get(fold(text)) ?? null);
}
