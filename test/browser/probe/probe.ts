import duckdbWorker from '@duckdb/duckdb-wasm/dist/duckdb-browser-eh.worker.js?url';
import duckdbWasm from '@duckdb/duckdb-wasm/dist/duckdb-eh.wasm?url';
import type { Engine } from '../../../analysis/engine/port.ts';
import { openWasm } from '../../../analysis/engine/wasm.ts';
import { readInputs } from '../../../analysis/inputs.ts';
import { loadReference, noIntervals, score, steps } from '../../../analysis/pipeline.ts';
import { postalCentroids } from '../../../analysis/place/postal.ts';
import { rainAtBuildings } from '../../../analysis/rain/at-buildings.ts';
import { decodeGrid } from '../../../analysis/rain/grid.ts';
import { rainMaking } from '../../../analysis/rain/making.ts';
import { defaultSettings } from '../../../analysis/settings.ts';
import { noRecord } from '../../../analysis/wetting/wind.ts';
import { fileSource } from '../../../dashboard/client/files.ts';
import gridUrl from '../../../data/built/annual-precip.bin?url';
import postalUrl from '../../../data/built/us-postal.bin?url';
import { generateDemo } from '../../../data/demo/generate.ts';

/** The page's engine, bare, for the tests of the engine in a real browser. */
declare global {
  interface Window {
    engine: Promise<Engine>;
    /** Milliseconds from CSV bytes to ranking for an invented portfolio, with intervals or with means alone. */
    rank: (buildings: number, intervals: boolean) => Promise<number>;
  }
}

const absolute = (url: string): string => new URL(url, location.href).href;
window.engine = openWasm({ wasm: absolute(duckdbWasm), worker: absolute(duckdbWorker) });

const bytes = async (url: string) => (await fetch(url)).arrayBuffer();
const source = (name: string, text: string) => fileSource(new File([text], name));

window.rank = async (buildings, intervals) => {
  const engine = await window.engine;
  const { buildingsCsv, wallsCsv } = generateDemo({ buildings, seed: 7 });
  const files = { buildings: source('b.csv', buildingsCsv), walls: [source('w.csv', wallsCsv)] };
  const assets = {
    grid: decodeGrid(await bytes(gridUrl)),
    postal: postalCentroids(await bytes(postalUrl)),
  };
  await loadReference(engine);
  const { constants } = defaultSettings;
  const start = performance.now();
  const portfolio = await readInputs(files, assets, constants.as_of!);
  const { columns, said } = rainAtBuildings(
    portfolio.buildings,
    rainMaking(portfolio, constants),
    constants,
  );
  const { n, cols } = portfolio.buildings;
  await engine.load('rain_said', said);
  await engine.load('building', { n, cols: { ...cols, ...columns } });
  await engine.load('wall_record', portfolio.walls);
  const run = intervals
    ? steps
    : steps.map((step) => (step.name === noIntervals.name ? noIntervals : step));
  await score(engine, defaultSettings, noRecord(constants), run);
  return performance.now() - start;
};
