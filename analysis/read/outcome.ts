import type { Columns } from '../columns.ts';

/** Where the bytes of a file come from: a browser File or a path, one interface for both. */
export interface ByteSource {
  /** File name as the user knows it, used in every sentence about it. */
  readonly name: string;
  /** Size in bytes where known, for progress. */
  readonly size?: number;
  readonly bytes: () => AsyncIterable<Uint8Array>;
}

/** Something the reader said about one cell of one row of a user's file. */
export interface Remark {
  readonly file: string;
  /** Row as a spreadsheet counts it: the heading row is 1. */
  readonly row: number;
  readonly column: string;
  readonly value: string;
  /** Short stable code, e.g. `repeat-id`, `latitude-range`. */
  readonly code: string;
  /** A sentence a property manager understands: what is wrong and what to do. */
  readonly message: string;
}

/** One file after reading. `rowsRead = table.n + setAside.length`, always. */
export interface ReadTable {
  readonly file: string;
  readonly rowsRead: number;
  /** The accepted rows: every column of the contract (absent ones all missing), plus `row` (number). */
  readonly table: Columns;
  /** Columns of the file that the contract does not know, kept as text, same rows as `table`. */
  readonly extra: Columns;
  /** Rows not accepted; one remark each (the first reason found). */
  readonly setAside: readonly Remark[];
  /** Cells of accepted rows that could not be read and are taken as *no record*. */
  readonly noted: readonly Remark[];
}

/** The whole input is refused; nothing was changed. The message is for the user. */
export class Refusal extends Error {
  readonly file: string;
  constructor(file: string, message: string) {
    super(message);
    this.name = 'Refusal';
    this.file = file;
  }
}
