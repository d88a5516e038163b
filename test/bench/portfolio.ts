import { closeSync, existsSync, openSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { fileSource, readAssets } from '../../analysis/cli/files.ts';
import { openNative } from '../../analysis/engine/native.ts';
import { loadRecord } from '../../analysis/engine/record.ts';
import { readInputs, wallRecord } from '../../analysis/inputs.ts';
import { loadReference, score } from '../../analysis/pipeline.ts';
import { rainAtBuildings } from '../../analysis/rain/at-buildings.ts';
import { rainMaking } from '../../analysis/rain/making.ts';
import { defaultSettings } from '../../analysis/settings.ts';
import { generateDemo } from '../../data/demo/generate.ts';
import { timed } from './line.ts';

/** An invented portfolio as two files. */
export interface PortfolioFiles {
  /** `100k buildings + 382k walls`. */
  readonly size: string;
  readonly buildings: string;
  readonly walls: string;
}

const made = new Map<number, PortfolioFiles>();

/** Buildings made at once: the scenario has no room for more of its own identifiers. */
const atOnce = 100_000;

/** Writes the portfolio of so many buildings into the folder, once a run. */
export function portfolioOf(folder: string, n: number): PortfolioFiles {
  const known = made.get(n);
  if (known) return known;
  const [buildings, walls] = ['buildings', 'walls'].map((name) => join(folder, `${name}-${n}.csv`));
  const rows = [buildings!, walls!].map(() => 0);
  for (let part = 0; part * atOnce < n; part++) {
    const size = Math.min(atOnce, n - part * atOnce);
    const { buildingsCsv, wallsCsv } = generateDemo({ buildings: size, seed: 7 + part });
    for (const [i, text] of [buildingsCsv, wallsCsv].entries()) {
      rows[i]! += append([buildings!, walls!][i]!, text, part);
    }
  }
  const files = {
    size: `${rows[0]! / 1000}k buildings + ${Math.round(rows[1]! / 1000)}k walls`,
    buildings: buildings!,
    walls: walls!,
  };
  made.set(n, files);
  return files;
}

/** Adds the rows of a part, its identifiers made its own; headings once. Returns how many rows. */
function append(path: string, text: string, part: number): number {
  const [head, ...rows] = text.trimEnd().split('\n');
  const file = openSync(path, existsSync(path) ? 'a' : 'w');
  if (part === 0) writeSync(file, `${head}\n`);
  for (let from = 0; from < rows.length; from += 10_000) {
    const block = rows.slice(from, from + 10_000);
    writeSync(
      file,
      block.map((row) => `${part > 0 && row[0] !== ',' ? part : ''}${row}\n`).join(''),
    );
  }
  closeSync(file);
  return rows.length;
}

/** What `nativeAlone` measures, as a line names its baseline. */
export const nativeAloneName = 'native DuckDB, one thread, same files and statements';

/**
 * Native DuckDB with one thread, ms: its own CSV reader on the same files, then the same statements and kernels over
 * tables already loaded.
 */
export async function nativeAlone(files: PortfolioFiles, times: number): Promise<number> {
  const instance = await DuckDBInstance.create(':memory:', { threads: '1' });
  const bare = await instance.connect();
  const read = await timed(times, async () => {
    for (const path of [files.buildings, files.walls]) {
      await bare.run('CREATE OR REPLACE TABLE t AS SELECT * FROM read_csv(?, all_varchar = true)', [
        path,
      ]);
    }
  });
  bare.closeSync();
  instance.closeSync();
  return read + (await scoredAlone(files, times));
}

async function scoredAlone(files: PortfolioFiles, times: number): Promise<number> {
  const engine = await openNative({ threads: 1 });
  await loadReference(engine);
  const { constants } = defaultSettings;
  const sources = { buildings: fileSource(files.buildings), walls: [fileSource(files.walls)] };
  const portfolio = await readInputs(sources, readAssets(), constants.as_of!);
  const { buildings } = portfolio;
  const rain = rainAtBuildings(buildings, rainMaking(portfolio, constants), constants);
  await engine.load('rain_said', rain.said);
  await loadRecord(engine, 'building', {
    n: buildings.n,
    cols: { ...buildings.cols, ...rain.columns },
  });
  await loadRecord(engine, 'wall_record', wallRecord(portfolio));
  const ms = await timed(times, () => score(engine, defaultSettings));
  await engine.close();
  return ms;
}
