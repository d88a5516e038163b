import {
  DOUBLE,
  type DuckDBConnection,
  DuckDBDataChunk,
  type DuckDBDoubleVector,
  DuckDBInstance,
  type DuckDBMaterializedResult,
  DuckDBTypeId,
  VARCHAR,
} from '@duckdb/node-api';
import type { Column, Columns } from '../columns.ts';
import { lockdown } from './lockdown.ts';
import { type Engine, EngineError, identifier, type Param } from './port.ts';

/** Rows of one data chunk: DuckDB's own vector size. */
const CHUNK = 2048;

export interface NativeOptions {
  /** Threads DuckDB may use; its own default where absent. */
  readonly threads?: number;
}

/** DuckDB inside the Node process: the engine of the command line and of most tests. */
export async function openNative(options: NativeOptions = {}): Promise<Engine> {
  const config: Record<string, string> = options.threads ? { threads: `${options.threads}` } : {};
  const instance = await DuckDBInstance.create(':memory:', config);
  const connection = await instance.connect();
  for (const statement of lockdown) await connection.run(statement);
  return {
    query: (text, params, signal) => query(connection, text, params, signal),
    load: (table, columns) => load(connection, table, columns),
    close: async () => {
      connection.closeSync();
      instance.closeSync();
    },
  };
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
    return await toColumns(await connection.run(text, [...params]));
  } catch (cause) {
    signal?.throwIfAborted();
    throw new EngineError(text, cause);
  } finally {
    signal?.removeEventListener('abort', stop);
  }
}

async function toColumns(result: DuckDBMaterializedResult): Promise<Columns> {
  const chunks = await result.fetchAllChunks();
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
    for (const value of chunk.getColumnValues(i)) {
      out[at++] = value === null ? Number.NaN : Number(value);
    }
  }
  return out;
}

async function load(connection: DuckDBConnection, table: string, columns: Columns): Promise<void> {
  const entries = Object.entries(columns.cols);
  const types = entries.map(([, column]) => (column instanceof Float64Array ? DOUBLE : VARCHAR));
  const heads = entries.map(([name], i) => `${identifier(name)} ${types[i]}`);
  await connection.run(`CREATE OR REPLACE TABLE ${identifier(table)} (${heads.join(', ')})`);
  const appender = await connection.createAppender(table);
  for (let from = 0; from < columns.n; from += CHUNK) {
    const rows = Math.min(CHUNK, columns.n - from);
    const chunk = DuckDBDataChunk.create(types, rows);
    entries.forEach(([, column], i) => {
      if (column instanceof Float64Array) setNumbers(chunk, i, column.subarray(from, from + rows));
      else chunk.setColumnValues(i, column.slice(from, from + rows));
    });
    appender.appendDataChunk(chunk);
  }
  appender.closeSync();
}

/** Writes a slice of doubles into a chunk's vector, NaN as NULL, without boxing each value. */
function setNumbers(chunk: DuckDBDataChunk, i: number, values: Float64Array): void {
  const vector = chunk.getColumnVector(i) as DuckDBDoubleVector;
  for (let r = 0; r < values.length; r++) {
    const value = values[r]!;
    vector.setItem(r, Number.isNaN(value) ? null : value);
  }
  vector.flush();
}
