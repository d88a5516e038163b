import duckdbWorker from '@duckdb/duckdb-wasm/dist/duckdb-browser-eh.worker.js?url';
import duckdbWasm from '@duckdb/duckdb-wasm/dist/duckdb-eh.wasm?url';
import type { Engine } from '../../../analysis/engine/port.ts';
import { openWasm } from '../../../analysis/engine/wasm.ts';

/** The page's engine, bare, for the tests of the engine in a real browser and as the bench's baseline. */
declare global {
  interface Window {
    engine: Promise<Engine>;
  }
}

const absolute = (url: string): string => new URL(url, location.href).href;
window.engine = openWasm({ wasm: absolute(duckdbWasm), worker: absolute(duckdbWorker) });
