import { csvTable } from '../../analysis/csv-table.ts';
import text from '../../data/vocabulary.csv?raw';

/** Columns of a finding whose cells are one of a few words. */
export type WordColumn = 'method' | 'condition' | 'reading_scale' | 'location';

const words = csvTable<'column' | 'value'>(text);

/** The words a column takes, in the order of the contract. */
export const wordsOf = (column: WordColumn): readonly string[] =>
  words.filter((word) => word.column === column).map(({ value }) => value);
