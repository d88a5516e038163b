import type { Columns } from '../columns.ts';

/** A value that may be bound to a `?` of a statement. */
export type Param = number | string | null;

/**
 * The one door to DuckDB. Two adapters stand behind it: `wasm.ts` (page) and `native.ts` (command line, tests).
 * Both are closed to the network before the first statement (`lockdown.ts`).
 */
export interface Engine {
  /** Runs one statement and returns its rows. Numbers of any SQL type arrive as doubles, NULL as NaN or null. */
  query(text: string, params?: readonly Param[], signal?: AbortSignal): Promise<Columns>;
  /** Creates or replaces a table from plain columns: Float64Array becomes DOUBLE, texts VARCHAR. */
  load(table: string, columns: Columns): Promise<void>;
  close(): Promise<void>;
}

/** An engine that has a database file beside its memory, for tables larger than that: the schema `kept`. */
export interface KeepingEngine extends Engine {
  /** Adds rows to `kept.<table>`, which is made where it is not there. Unlike `load`, NaN stays NaN: it is faster. */
  append(table: string, columns: Columns): Promise<void>;
  /** Runs one statement and hands its rows on in pieces, in order, so that they are never all held. */
  stream(text: string, signal?: AbortSignal): AsyncGenerator<Columns>;
}

/** A statement the engine refused: wrapped once, with its text, so that a report can show both. */
export class EngineError extends Error {
  readonly statement: string;
  constructor(statement: string, cause: unknown) {
    super(
      `The engine refused a statement: ${cause instanceof Error ? cause.message : String(cause)}`,
      { cause },
    );
    this.name = 'EngineError';
    this.statement = statement;
  }
}

/** Quotes a name for SQL. The only place where identifiers are quoted. */
export const identifier = (name: string): string => `"${name.replaceAll('"', '""')}"`;
