import { AsyncDuckDB, type AsyncDuckDBConnection, VoidLogger } from '@duckdb/duckdb-wasm';
import { Table } from 'apache-arrow';
import type { Columns } from '../columns.ts';
import { fromArrow, toArrowStream } from './arrow.ts';
import { lockdown } from './lockdown.ts';
import { type Engine, EngineError, identifier, type Param } from './port.ts';
import { engineStopped } from './stopped.ts';
import { createTurns } from './turns.ts';

/** Where the page serves the two files of duckdb-wasm's `eh` bundle, and how it watches over them. */
export interface WasmFiles {
  readonly wasm: string;
  readonly worker: string;
  /** Script that holds a lock for the thread's life, then becomes `worker`. Without it a silent end goes unnoticed. */
  readonly entry?: string;
  /** The engine's thread is gone: what was asked is rejected with `EngineStopped`, what will be asked too. */
  readonly onStopped?: (cause: Error) => void;
  /** A sign of life while the engine loads. */
  readonly onLoading?: () => void;
}

/** Milliseconds without a sign of life after which a start is given up: it can hang without a word. */
const START_DEADLINE = 30_000;

/** DuckDB in its own worker: the engine of the page. */
export async function openWasm(files: WasmFiles): Promise<Engine> {
  // The entry reads the address of its worker off its own name: a script served by a service worker has no fragment.
  const lock = `rainledger engine ${Math.random().toString(36).slice(2)} ${files.worker}`;
  const worker = new Worker(files.entry ?? files.worker, { name: lock });
  const life = watchLife(worker, files.onStopped);
  const deadline = createDeadline(() => life.stop('The analysis engine did not start.'));
  try {
    if (files.entry) await life.whileAlive(lockHeld(worker, lock, life.stop));
    const db = new AsyncDuckDB(new VoidLogger(), worker);
    const loading = () => {
      deadline.renew();
      files.onLoading?.();
    };
    await life.whileAlive(db.instantiate(files.wasm, null, loading));
    const connection = await life.whileAlive(db.connect());
    for (const statement of lockdown) await life.whileAlive(connection.query(statement));
    // A load is several messages, and a statement between them would end it; so is a statement that can be stopped.
    const inTurn = createTurns();
    return {
      query: (text, params, signal) =>
        life.whileAlive(inTurn(() => query(connection, text, params, signal))),
      load: (table, columns) => life.whileAlive(inTurn(() => load(connection, table, columns))),
      close: async () => {
        life.end();
        await connection.close();
        await db.terminate();
      },
    };
  } finally {
    deadline.end();
  }
}

interface Life {
  /** The work's own answer, or `EngineStopped` where the thread ends before. */
  readonly whileAlive: <T>(work: Promise<T>) => Promise<T>;
  /** The thread is gone or given up. */
  readonly stop: (message: string) => void;
  /** The thread is ended on purpose: nobody is told. */
  readonly end: () => void;
}

/**
 * Rejects what waits when the thread ends. What waits stands in a set of its own: racing every answer against one
 * promise of death would keep all answers in memory for as long as the engine lives.
 */
function watchLife(worker: Worker, onStopped: WasmFiles['onStopped']): Life {
  const waiting = new Set<(cause: Error) => void>();
  let cause: Error | null = null;
  let over = false;
  const stop = (message: string): void => {
    if (over) return;
    over = true;
    cause = engineStopped(message);
    worker.terminate();
    for (const reject of waiting) reject(cause);
    waiting.clear();
    onStopped?.(cause);
  };
  worker.addEventListener('error', (event) => {
    event.preventDefault();
    stop(`The analysis engine stopped${event.message ? `: ${event.message}` : '.'}`);
  });
  const whileAlive = <T>(work: Promise<T>): Promise<T> =>
    new Promise((resolve, reject) => {
      if (cause) return reject(cause);
      waiting.add(reject);
      work.then(resolve, reject).finally(() => waiting.delete(reject));
    });
  return {
    whileAlive,
    stop,
    end: () => {
      over = true;
    },
  };
}

/**
 * Resolves once the thread holds its lock (or says that this browser has none). From then on the same lock is asked
 * for in queue: it is granted when the thread is gone, and never before.
 */
function lockHeld(worker: Worker, lock: string, stop: (message: string) => void): Promise<void> {
  return new Promise((resolve) => {
    const heard = ({ data }: MessageEvent<{ readonly held: boolean }>) => {
      if (data.held)
        void navigator.locks.request(lock, () =>
          stop('The analysis engine stopped without a word.'),
        );
      resolve();
    };
    worker.addEventListener('message', heard, { once: true });
  });
}

function createDeadline(late: () => void): { renew: () => void; end: () => void } {
  let timer = setTimeout(late, START_DEADLINE);
  return {
    renew: () => {
      clearTimeout(timer);
      timer = setTimeout(late, START_DEADLINE);
    },
    end: () => clearTimeout(timer),
  };
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

/** Rows that cross to the engine at once: a million in one piece would lie in its memory twice. */
const ROWS_AT_ONCE = 131_072;

async function load(connection: AsyncDuckDBConnection, table: string, columns: Columns) {
  await connection.query(`DROP TABLE IF EXISTS ${identifier(table)}`);
  for (let from = 0; from === 0 || from < columns.n; from += ROWS_AT_ONCE) {
    const part = slice(columns, from, Math.min(columns.n, from + ROWS_AT_ONCE));
    await connection.insertArrowFromIPCStream(toArrowStream(part), {
      name: table,
      create: from === 0,
    });
  }
}

function slice({ cols }: Columns, from: number, to: number): Columns {
  const parts = Object.entries(cols).map(
    ([name, column]) =>
      [
        name,
        column instanceof Float64Array ? column.subarray(from, to) : column.slice(from, to),
      ] as const,
  );
  return { n: to - from, cols: Object.fromEntries(parts) };
}
