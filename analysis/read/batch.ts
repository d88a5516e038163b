import type { Remark } from './outcome.ts';

/** Some records of a table file, in order; the first batch has at least one. Blank rows are left out but counted in `rows`. */
export interface Batch {
  /** Cells of each record, untrimmed, as many as the record has. */
  readonly records: readonly (readonly string[])[];
  /** Row of each record as a spreadsheet counts it: a record that spans lines is one row, a blank line is one too. */
  readonly rows: readonly number[];
  /** Positions in `records` where a stray quotation mark made one record of several lines. */
  readonly torn: ReadonlySet<number>;
  /** Whether a comma stands before decimals; the same in all batches of a file. */
  readonly decimalComma: boolean;
  /** Sentences on the file as a whole that came up while these records were read. */
  readonly notes: readonly string[];
  /** What is to be said of single cells of these records, whatever columns they fill. */
  readonly remarks: readonly Remark[];
}

/** What only carries notes: never the first batch of a file. */
export const noRecords: Batch = {
  records: [],
  rows: [],
  torn: new Set(),
  decimalComma: false,
  notes: [],
  remarks: [],
};

/** Whether nothing stands in any cell. */
export const isBlankRecord = (record: readonly string[]): boolean => {
  const first = record[0];
  if (first !== undefined && first.charCodeAt(0) > 32) return false;
  return record.every((cell) => cell.trim() === '');
};
