import type { OutValue } from './out-table.ts';

/** A format of text, written batch by batch: however the rows are cut into batches, the text is the same. */
export interface TextForm {
  /** What stands before the first row. */
  readonly begin: string;
  readonly rows: (rows: readonly (readonly OutValue[])[], first: boolean) => string;
  /** What stands after the last; `empty` where there was none. */
  readonly end: (empty: boolean) => string;
}
