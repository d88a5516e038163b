import {
  DOUBLE,
  type DuckDBAppender,
  type DuckDBConnection,
  DuckDBDataChunk,
  type DuckDBDoubleVector,
  DuckDBInstance,
  type DuckDBResult,
  DuckDBTypeId,
  VARCHAR,
} from '@duckdb/node-api';
import type { Column, Columns } from '../columns.ts';
import { lockdown } from './lockdown.ts';
import { type Engine, EngineError, identifier, type KeepingEngine, type Param } from './port.ts';
import { createTurns } from './turns.ts';

/** Rows of one data chunk: DuckDB's own vector size. */
const CHUNK = 2048;

export interface NativeOptions {
  /** Threads DuckDB may use; its own default where absent. */
  readonly threads?: number;
}

export interface KeepingOptions extends NativeOptions {
  /** Path of the database file behind the schema `kept`; made where there is none. */
  readonly kept: string;
  /** Folder for what does not fit the memory. */
  readonly temporary: string;
  /** Memory of DuckDB, MB; what it works on beyond that goes into `temporary`. */
  readonly memoryMb: number;
}

/** DuckDB inside the Node process: the engine of the command line and of most tests. */
export async function openNative(options: NativeOptions = {}): Promise<Engine> {
  const config: Record<string, string> = options.threads ? { threads: `${options.threads}` } : {};
  return opened(await DuckDBInstance.create(':memory:', config));
}

/** The same with a bound on its memory, and with tables in a file. Throws where another process holds the file. */
export async function openKeeping(options: KeepingOptions): Promise<KeepingEngine> {
  const { kept, temporary, memoryMb, threads } = options;
  const instance = await DuckDBInstance.create(':memory:', {
    memory_limit: `${memoryMb}MB`,
    temp_directory: temporary,
    ...(threads ? { threads: `${threads}` } : {}),
  });
  return opened(instance, `ATTACH '${kept.replaceAll("'", "''")}' AS kept`);
}

async function opened(instance: DuckDBInstance, attach?: string): Promise<KeepingEngine> {
  const connection = await instance.connect();
  // What is attached before the doors are closed stays open.
  for (const statement of [...(attach ? [attach] : []), ...lockdown]) {
    await connection.run(statement);
  }
  // A second statement ends the first one's result while it is read.
  const inTurn = createTurns();
  return {
    query: (text, params, signal) => inTurn(() => query(connection, text, params, signal)),
    load: (table, columns) => inTurn(() => load(connection, table, columns)),
    append: (table, columns) => inTurn(() => append(connection, table, columns)),
    stream: (text, signal) => stream(connection, text, signal),
    // A statement that is under way is let end: it runs on a thread of its own.
    close: () =>
      inTurn(async () => {
        connection.closeSync();
        instance.closeSync();
      }),
  };
}

async function* stream(
  connection: DuckDBConnection,
  text: string,
  signal?: AbortSignal,
): AsyncGenerator<Columns> {
  try {
    const result = await connection.stream(text);
    for (;;) {
      signal?.throwIfAborted();
      const chunk = await result.fetchChunk();
      if (!chunk || chunk.rowCount === 0) return;
      yield toColumns(result, [chunk]);
    }
  } catch (cause) {
    signal?.throwIfAborted();
    throw new EngineError(text, cause);
  }
}

async function query(
  connection: DuckDBConnection,
  text: string,
  params: readonly Param[] = [],
  signal?: AbortSignal,
): Promise<Columns> {
  signal?.throwIfAborted();
  const stop = () => connection.interrupt();
  signal?.addEventListener('abort', stop, { once: true });
  try {
    const result = await connection.run(text, [...params]);
    return toColumns(result, await result.fetchAllChunks());
  } catch (cause) {
    signal?.throwIfAborted();
    throw new EngineError(text, cause);
  } finally {
    signal?.removeEventListener('abort', stop);
  }
}

function toColumns(result: DuckDBResult, chunks: readonly DuckDBDataChunk[]): Columns {
  const n = chunks.reduce((sum, chunk) => sum + chunk.rowCount, 0);
  const cols: Record<string, Column> = {};
  result.columnNames().forEach((name, i) => {
    cols[name] =
      result.columnTypeId(i) === DuckDBTypeId.VARCHAR
        ? textColumn(chunks, i)
        : numberColumn(chunks, i, n);
  });
  return { n, cols };
}

const textColumn = (chunks: readonly DuckDBDataChunk[], i: number): (string | null)[] =>
  chunks.flatMap((chunk) => chunk.getColumnValues(i) as (string | null)[]);

function numberColumn(chunks: readonly DuckDBDataChunk[], i: number, n: number): Float64Array {
  const out = new Float64Array(n);
  let at = 0;
  for (const chunk of chunks) {
    const vector = chunk.getColumnVector(i);
    for (let r = 0; r < vector.itemCount; r += 1) {
      const value = vector.getItem(r);
      out[at++] = value === null ? Number.NaN : Number(value);
    }
  }
  return out;
}

const typesOf = ({ cols }: Columns) =>
  Object.values(cols).map((column) => (column instanceof Float64Array ? DOUBLE : VARCHAR));

/** Column names with their types, as a statement that makes a table has them. */
function headsOf(columns: Columns): string {
  const types = typesOf(columns);
  return Object.keys(columns.cols)
    .map((name, i) => `${identifier(name)} ${types[i]}`)
    .join(', ');
}

async function load(connection: DuckDBConnection, table: string, columns: Columns): Promise<void> {
  await connection.run(`CREATE OR REPLACE TABLE ${identifier(table)} (${headsOf(columns)})`);
  fill(await connection.createAppender(table), columns, setNumbers);
}

async function append(
  connection: DuckDBConnection,
  table: string,
  columns: Columns,
): Promise<void> {
  const name = identifier(table);
  await connection.run(`CREATE TABLE IF NOT EXISTS kept.${name} (${headsOf(columns)})`);
  fill(await connection.createAppender(table, 'main', 'kept'), columns, copyNumbers);
}

type NumberSetter = (vector: DuckDBDoubleVector, values: Float64Array) => void;

function fill(appender: DuckDBAppender, columns: Columns, set: NumberSetter): void {
  const types = typesOf(columns);
  const all = Object.values(columns.cols);
  for (let from = 0; from < columns.n; from += CHUNK) {
    const rows = Math.min(CHUNK, columns.n - from);
    const chunk = DuckDBDataChunk.create(types, rows);
    all.forEach((column, i) => {
      if (column instanceof Float64Array) {
        const vector = chunk.getColumnVector(i) as DuckDBDoubleVector;
        set(vector, column.subarray(from, from + rows));
        vector.flush();
      } else chunk.setColumnValues(i, column.slice(from, from + rows));
    });
    appender.appendDataChunk(chunk);
  }
  appender.closeSync();
}

/** NaN becomes NULL. */
function setNumbers(vector: DuckDBDoubleVector, values: Float64Array): void {
  for (let r = 0; r < values.length; r++) {
    const value = values[r]!;
    vector.setItem(r, Number.isNaN(value) ? null : value);
  }
}

/** NaN stays: a vector without blanks is filled twice as fast. */
function copyNumbers(vector: DuckDBDoubleVector, values: Float64Array): void {
  for (let r = 0; r < values.length; r++) vector.setItem(r, values[r]!);
}
