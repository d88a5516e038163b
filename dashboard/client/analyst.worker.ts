import duckdbWorker from '@duckdb/duckdb-wasm/dist/duckdb-browser-eh.worker.js?url';
import duckdbWasm from '@duckdb/duckdb-wasm/dist/duckdb-eh.wasm?url';
import { openWasm } from '../../analysis/engine/wasm.ts';
import { postalCentroids } from '../../analysis/place/postal.ts';
import { decodeGrid } from '../../analysis/rain/grid.ts';
import { Refusal } from '../../analysis/read/outcome.ts';
import { createSession } from '../../analysis/session.ts';
import type { Analyst } from '../../analysis/session-types.ts';
import gridUrl from '../../data/built/annual-precip.bin?url';
import postalUrl from '../../data/built/us-postal.bin?url';
import { fromWire } from './files.ts';
import type { Failure, Method, Reply, Request, WireArgs } from './messages.ts';

/**
 * The analyst's thread: reads files, keeps the engine (which has a worker of its own) and answers the page.
 * It starts the engine at once, while the page paints.
 */
const session: Promise<Analyst> = start();
session.catch(() => {});

async function start(): Promise<Analyst> {
  const absolute = (url: string): string => new URL(url, self.location.href).href;
  const bytes = async (url: string) => (await fetch(url)).arrayBuffer();
  const [engine, grid, postal] = await Promise.all([
    openWasm({ wasm: absolute(duckdbWasm), worker: absolute(duckdbWorker) }),
    bytes(gridUrl),
    bytes(postalUrl),
  ]);
  return createSession(engine, { grid: decodeGrid(grid), postal: postalCentroids(postal) });
}

self.addEventListener('message', async ({ data }: MessageEvent<Request>) => {
  self.postMessage(await answer(data));
});

async function answer(request: Request): Promise<Reply> {
  try {
    return { id: request.id, result: await call(await session, request) };
  } catch (cause) {
    return { id: request.id, failure: failureOf(cause) };
  }
}

function call(analyst: Analyst, { method, args }: Request): Promise<unknown> {
  if (method === 'open') return analyst.open(fromWire((args as WireArgs<'open'>)[0]));
  const ask = analyst[method] as (...args: unknown[]) => Promise<unknown>;
  return ask(...(args as Parameters<Analyst[Exclude<Method, 'open'>]>));
}

function failureOf(cause: unknown): Failure {
  if (cause instanceof Refusal)
    return { name: cause.name, message: cause.message, file: cause.file };
  if (cause instanceof Error) return { name: cause.name, message: cause.message };
  return { name: 'Error', message: String(cause) };
}
