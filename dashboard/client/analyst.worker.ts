import duckdbWorker from '@duckdb/duckdb-wasm/dist/duckdb-browser-eh.worker.js?url';
import duckdbWasm from '@duckdb/duckdb-wasm/dist/duckdb-eh.wasm?url';
import type { Engine } from '../../analysis/engine/port.ts';
import { whenStarted } from '../../analysis/engine/starting.ts';
import { openWasm } from '../../analysis/engine/wasm.ts';
import { postalCentroids } from '../../analysis/place/postal.ts';
import { decodeGrid } from '../../analysis/rain/grid.ts';
import { Refusal } from '../../analysis/read/outcome.ts';
import { createSession } from '../../analysis/session.ts';
import type { Analyst, Inputs, Progress, Watching } from '../../analysis/session-types.ts';
import { decodeStations } from '../../analysis/stations/built-in.ts';
import gridUrl from '../../data/built/annual-precip.bin?url';
import postalUrl from '../../data/built/us-postal.bin?url';
import stationsUrl from '../../data/built/us-stations.json?url';
import { messageOf } from '../parts/message-of.ts';
import engineEntry from './engine-entry.js?url';
import { fromWire } from './files.ts';
import type { Sign } from './life.ts';
import type { Failure, Method, Reply, Request, Stop, Underway } from './messages.ts';

/**
 * The analyst's thread: reads files, keeps the engine (which has a worker of its own) and answers the page.
 * It starts the engine at once, while the page paints.
 */
const sign = (said: Sign): void => self.postMessage(said);

holdLock();
const absolute = (url: string): string => new URL(url, self.location.href).href;

const engine = startEngine();
const session: Promise<Analyst> = start();
Promise.all([engine, session]).then(
  () => sign({ life: 'started' }),
  (cause: unknown) => sign({ life: 'stopped', message: failureOf(cause).message }),
);

/** Holds a lock named like this worker for as long as it lives: the page is granted it when the worker is gone. */
function holdLock(): void {
  const locks = navigator.locks as LockManager | undefined;
  if (!locks) sign({ life: 'no lock' });
  void locks?.request(self.name, () => {
    sign({ life: 'held' });
    return new Promise(() => {});
  });
}

function startEngine(): Promise<Engine> {
  return openWasm({
    wasm: absolute(duckdbWasm),
    worker: absolute(duckdbWorker),
    entry: absolute(engineEntry),
    onLoading: () => sign({ life: 'loading' }),
    onStopped: ({ message }) => sign({ life: 'stopped', message }),
  });
}

/**
 * The example is read while the engine starts; all else waits for it. Files of a user's own may be large, and a thread
 * that reads them without a pause be taken for one that does not start.
 */
const isEarly = ({ method, args }: Request): boolean =>
  method === 'open' && (args[0] as Inputs).demo === true;

async function start(): Promise<Analyst> {
  const bytes = async (url: string) => (await fetch(url)).arrayBuffer();
  const text = async (url: string) => (await fetch(url)).text();
  const [grid, stations, postal] = await Promise.all([
    bytes(gridUrl).then(decodeGrid),
    text(stationsUrl).then(decodeStations),
    bytes(postalUrl).then(postalCentroids),
  ]);
  return createSession(whenStarted(engine), { grid, stations, postal });
}

/** What stops the work on each request that is under way. */
const underway = new Map<number, AbortController>();

self.addEventListener('message', async ({ data }: MessageEvent<Request | Stop>) => {
  if ('stop' in data) return underway.get(data.stop)?.abort();
  const reply = await answer(data);
  self.postMessage(reply, { transfer: handedOver(data.method, reply) });
});

/** Methods whose columns are made for the page alone: they are handed over, where a copy of a million would be felt. */
const made: ReadonlySet<Method> = new Set<Method>(['frame', 'order', 'lean']);

function handedOver(method: Method, reply: Reply): ArrayBuffer[] {
  if (!made.has(method) || !('result' in reply)) return [];
  const result = reply.result ?? {};
  const columns = ArrayBuffer.isView(result) ? [result] : Object.values(result as object);
  return columns
    .filter((column) => ArrayBuffer.isView(column))
    .map(({ buffer }) => buffer as ArrayBuffer);
}

async function answer(request: Request): Promise<Reply> {
  const stopping = new AbortController();
  underway.set(request.id, stopping);
  try {
    const analyst = await session;
    if (!isEarly(request)) await engine;
    return { id: request.id, result: await call(analyst, request, stopping.signal) };
  } catch (cause) {
    return { id: request.id, failure: failureOf(cause) };
  } finally {
    underway.delete(request.id);
  }
}

function call(
  analyst: Analyst,
  { id, method, args }: Request,
  signal: AbortSignal,
): Promise<unknown> {
  const ask = analyst[method] as (...args: unknown[]) => Promise<unknown>;
  const given = fromWire(args);
  if (method !== 'open') return ask(...given);
  const onProgress = (progress: Progress) => self.postMessage({ id, progress } satisfies Underway);
  return ask(...given, { signal, onProgress } satisfies Watching);
}

function failureOf(cause: unknown): Failure {
  if (cause instanceof Refusal)
    return { name: cause.name, message: cause.message, file: cause.file };
  const name = cause instanceof Error ? cause.name : 'Error';
  return { name, message: messageOf(cause) };
}
