import type { Columns } from '../columns.ts';

/** Where the bytes of a file come from: a browser File or a path, one interface for both. */
export interface ByteSource {
  /** File name as the user knows it, used in every sentence about it. */
  readonly name: string;
  /** Size in bytes. */
  readonly size: number;
  /** The whole file, piece by piece. */
  readonly bytes: () => AsyncIterable<Uint8Array>;
  /** The bytes from `from` (inclusive) to `to` (exclusive): formats with an index are read in parts. */
  readonly slice: (from: number, to: number) => Promise<Uint8Array>;
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
  /** The wall that is meant, in files with several walls a row. */
  readonly wall?: string;
  /** A sentence a property manager understands: what is wrong and what to do. */
  readonly message: string;
  /** A correction that would probably do, offered and never made without the user. */
  readonly mend?: Mend;
}

/** New text for cells of a row, by contract column, and what that amounts to in a few words. */
export interface Mend {
  /** e.g. `Exchange latitude and longitude`. */
  readonly says: string;
  readonly cells: Readonly<Record<string, string>>;
}

/** One file after reading. `rowsRead = table.n + setAside.length + joined`, always. */
export interface ReadTable {
  readonly file: string;
  /** Rows below the headings that are not blank. */
  readonly records: number;
  /** Rows of this table: as many as records, but for files that hold several tables side by side. */
  readonly rowsRead: number;
  /** Rows that speak of a building already read: one with it. */
  readonly joined: number;
  /** The accepted rows: every column of the contract (absent ones all missing), plus `row` (number). */
  readonly table: Columns;
  /** Columns of the file that the contract does not know, kept as text, same rows as `table`. */
  readonly extra: Columns;
  /** Rows not accepted; one remark each (the first reason found). */
  readonly setAside: readonly Remark[];
  /** Cells of accepted rows that could not be read and are taken as *no record*. */
  readonly noted: readonly Remark[];
  /** What is to be said of the file as a whole: how it was decoded, what stood above its headings. */
  readonly notes: readonly string[];
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
