import { AsyncDuckDB, type AsyncDuckDBConnection, VoidLogger } from '@duckdb/duckdb-wasm';
import { Table } from 'apache-arrow';
import type { Columns } from '../columns.ts';
import { fromArrow, toArrowStream } from './arrow.ts';
import { lockdown } from './lockdown.ts';
import { type Engine, EngineError, identifier, type Param } from './port.ts';

/** Where the page serves the two files of duckdb-wasm's `eh` bundle. */
export interface WasmFiles {
  readonly wasm: string;
  readonly worker: string;
}

/** Milliseconds the engine may take to start before the attempt is given up: it can hang without a word. */
const START_DEADLINE = 60_000;

/** DuckDB in its own worker: the engine of the page. */
export async function openWasm(files: WasmFiles): Promise<Engine> {
  const worker = new Worker(files.worker);
  const death = new Promise<never>((_, reject) => {
    worker.addEventListener('error', (event) =>
      reject(new EngineError('(start)', new Error(event.message || 'the engine worker stopped'))),
    );
  });
  death.catch(() => {});
  const alive = <T>(work: Promise<T>): Promise<T> => Promise.race([work, death]);
  const db = new AsyncDuckDB(new VoidLogger(), worker);
  await alive(withDeadline(db.instantiate(files.wasm)));
  const connection = await alive(db.connect());
  for (const statement of lockdown) await alive(connection.query(statement));
  return {
    query: (text, params, signal) => alive(query(connection, text, params, signal)),
    load: (table, columns) => alive(load(connection, table, columns)),
    close: async () => {
      await connection.close();
      await db.terminate();
    },
  };
}

function withDeadline<T>(work: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const late = () => reject(new EngineError('(start)', new Error('the engine did not start')));
    const timer = setTimeout(late, START_DEADLINE);
    work.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}

async function query(
  connection: AsyncDuckDBConnection,
  text: string,
  params: readonly Param[] = [],
  signal?: AbortSignal,
): Promise<Columns> {
  signal?.throwIfAborted();
  try {
    return fromArrow(await run(connection, text, params, signal));
  } catch (cause) {
    signal?.throwIfAborted();
    throw new EngineError(text, cause);
  }
}

async function run(
  connection: AsyncDuckDBConnection,
  text: string,
  params: readonly Param[],
  signal?: AbortSignal,
): Promise<Table> {
  if (params.length > 0) return runPrepared(connection, text, params);
  return signal ? runStoppable(connection, text, signal) : connection.query(text);
}

async function runPrepared(
  connection: AsyncDuckDBConnection,
  text: string,
  params: readonly Param[],
): Promise<Table> {
  const statement = await connection.prepare(text);
  try {
    return await statement.query(...params);
  } finally {
    await statement.close();
  }
}

/** A sent statement, unlike a queried one, yields to a cancel while it runs. */
async function runStoppable(
  connection: AsyncDuckDBConnection,
  text: string,
  signal: AbortSignal,
): Promise<Table> {
  const stop = () => void connection.cancelSent();
  signal.addEventListener('abort', stop, { once: true });
  try {
    const reader = await connection.send(text, true);
    return new Table(await reader.readAll());
  } finally {
    signal.removeEventListener('abort', stop);
  }
}

async function load(connection: AsyncDuckDBConnection, table: string, columns: Columns) {
  await connection.query(`DROP TABLE IF EXISTS ${identifier(table)}`);
  await connection.insertArrowFromIPCStream(toArrowStream(columns), { name: table, create: true });
}
