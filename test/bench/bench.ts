import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import type { Browser, Page } from 'playwright-core';
import { preview } from 'vite';
import { fileSource, readAssets } from '../../analysis/cli/files.ts';
import { openNative } from '../../analysis/engine/native.ts';
import { readInputs } from '../../analysis/inputs.ts';
import { loadReference, score } from '../../analysis/pipeline.ts';
import { rainAtBuildings } from '../../analysis/rain/at-buildings.ts';
import { rainMaking } from '../../analysis/rain/making.ts';
import { createSession } from '../../analysis/session.ts';
import { defaultSettings } from '../../analysis/settings.ts';
import { generateDemo } from '../../data/demo/generate.ts';
import { launch } from '../browser/chromium.ts';
import type {} from '../browser/probe/probe.ts';
import { serveProbe } from '../browser/probe/serve.ts';

/** One measured work beside its baseline of the same run, milliseconds (medians). */
interface Line {
  readonly work: string;
  readonly baseline: string;
  readonly baselineMs: number;
  readonly ms: number;
}

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[values.length >> 1]!;

/** Median time of `work`; what `after` does to be ready again does not count. */
async function timed(
  times: number,
  work: () => Promise<unknown>,
  after: () => Promise<unknown> = async () => {},
): Promise<number> {
  const taken: number[] = [];
  for (let i = 0; i < times; i++) {
    const start = performance.now();
    await work();
    taken.push(performance.now() - start);
    await after();
  }
  return median(taken);
}

const folder = mkdtempSync(join(tmpdir(), 'rainledger-bench-'));
const files = { buildings: join(folder, 'buildings.csv'), walls: join(folder, 'walls.csv') };

function writePortfolio(buildings: number): string {
  const { buildingsCsv, wallsCsv } = generateDemo({ buildings, seed: 7 });
  writeFileSync(files.buildings, buildingsCsv);
  writeFileSync(files.walls, wallsCsv);
  return `${buildings / 1000}k buildings + ${Math.round((wallsCsv.split('\n').length - 2) / 1000)}k walls`;
}

/** Native DuckDB alone: its own CSV reader on the same files, then the same SQL over tables already loaded. */
async function nativeAlone(): Promise<number> {
  const instance = await DuckDBInstance.create(':memory:');
  const bare = await instance.connect();
  const read = await timed(3, async () => {
    for (const path of Object.values(files)) {
      await bare.run(`CREATE OR REPLACE TABLE t AS SELECT * FROM read_csv(?, all_varchar = true)`, [
        path,
      ]);
    }
  });
  bare.closeSync();
  const engine = await openNative();
  await loadReference(engine);
  const portfolio = await readInputs(sources(), readAssets(), defaultSettings.constants.as_of!);
  const { buildings, walls } = portfolio;
  const { constants } = defaultSettings;
  const making = rainMaking(portfolio, constants);
  const { columns, said } = rainAtBuildings(buildings, making, constants);
  await engine.load('rain_said', said);
  await engine.load('building', { n: buildings.n, cols: { ...buildings.cols, ...columns } });
  await engine.load('wall_record', walls);
  const scored = await timed(3, () => score(engine, defaultSettings));
  await engine.close();
  return read + scored;
}

const sources = () => ({
  buildings: fileSource(files.buildings),
  walls: [fileSource(files.walls)],
});

async function commandLine(): Promise<number> {
  return timed(3, async () => {
    const engine = await openNative();
    const session = await createSession(engine, readAssets());
    await session.open(sources());
    await session.order({ by: 'index' });
    await engine.close();
  });
}

/** Waits until the table shows its first row and the map has drawn. */
async function shown(page: Page, map: boolean): Promise<void> {
  await page.waitForSelector('tbody tr.row[aria-rowindex="2"] .building-name', {
    timeout: 180_000,
  });
  if (map) await page.waitForSelector('[data-drawn=yes]', { timeout: 180_000 });
}

async function demoInPage(browser: Browser, origin: string): Promise<number> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const open = async () => {
    const page = await context.newPage();
    await page.goto(origin);
    await shown(page, true);
    await page.close();
  };
  await open();
  const ms = await timed(5, open);
  await context.close();
  return ms;
}

/** The engine's own start in the same browser: fetch, compile, first answer. */
async function engineStart(browser: Browser): Promise<number> {
  const probe = await serveProbe();
  const context = await browser.newContext();
  const open = async () => {
    const page = await context.newPage();
    await page.goto(probe.origin);
    await page.waitForFunction(() => 'engine' in window);
    await page.evaluate(async () => (await window.engine).query('SELECT 1'));
    await page.close();
  };
  await open();
  const ms = await timed(5, open);
  await context.close();
  await probe.close();
  return ms;
}

/** Intervals against means alone: the same run in the page's engine, with and without that step. */
async function intervalsInPage(browser: Browser): Promise<{ full: number; means: number }> {
  const probe = await serveProbe();
  const page = await browser.newPage();
  await page.goto(probe.origin);
  await page.waitForFunction(() => 'rank' in window);
  const once = (intervals: boolean) =>
    page.evaluate((wanted) => window.rank(100_000, wanted), intervals);
  const means: number[] = [];
  const full: number[] = [];
  for (let i = 0; i < 3; i++) {
    means.push(await once(false));
    full.push(await once(true));
  }
  await page.close();
  await probe.close();
  return { full: median(full), means: median(means) };
}

async function filesInPage(browser: Browser, origin: string): Promise<number> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  await page.goto(origin);
  await shown(page, false);
  const sources = () => page.getByRole('link', { name: 'Sources' }).click();
  const ranking = async (size: RegExp) => {
    await page.getByRole('link', { name: 'Rank' }).click();
    await page.getByText(size).waitFor({ timeout: 180_000 });
    await shown(page, false);
  };
  const read = async () => {
    await page.getByRole('button', { name: 'Read these files' }).click();
    await ranking(/^All 9\d,\d{3} buildings/);
  };
  const choose = async () => {
    await sources();
    await page.getByLabel(/Drop your files here/).setInputFiles(Object.values(files));
    await page.locator('.held-summary').nth(1).waitFor({ timeout: 60_000 });
  };
  const forget = async () => {
    await sources();
    await page.getByRole('button', { name: /invented example/ }).click();
    await ranking(/^All \d{3} buildings/);
    await choose();
  };
  await choose();
  const ms = await timed(3, read, forget);
  await context.close();
  return ms;
}

const million = join(folder, 'million.csv');

/** A list of a million buildings with headings of its owner's own; places and years by a fixed generator. */
function writeMillion(): void {
  let state = 7;
  const draw = (): number => {
    state = (state * 16_807) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  const rows = Array.from({ length: 1e6 }, (_, i) => {
    const [lat, lon] = [30 + 18 * draw(), -120 + 40 * draw()].map((x) => x.toFixed(5));
    return `B${i},House ${i},${lat},${lon},${1960 + Math.floor(60 * draw())},${1 + Math.floor(9 * draw())}`;
  });
  writeFileSync(million, `id,name,lat,lon,built,floors\n${rows.join('\n')}\n`);
}

/** The million read in the page until it is open: time, and the longest task of the page's own thread meanwhile. */
async function millionInPage(
  browser: Browser,
  origin: string,
): Promise<{ ms: number; longestTask: number }> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  await page.goto(`${origin}#/sources`);
  await page.getByText('Open now').waitFor({ timeout: 60_000 });
  await page.getByLabel(/Drop your files here/).setInputFiles(million);
  await page.locator('.held-summary').waitFor({ timeout: 60_000 });
  await page.evaluate(() => {
    Object.assign(window, { longestTask: 0 });
    new PerformanceObserver((list) => {
      const longest = Math.max(...list.getEntries().map(({ duration }) => duration));
      const before = (window as unknown as { longestTask: number }).longestTask;
      Object.assign(window, { longestTask: Math.max(before, longest) });
    }).observe({ type: 'longtask' });
  });
  const start = performance.now();
  await page.getByRole('button', { name: 'Read these files' }).click();
  await page.getByText('Open now: your files').waitFor({ timeout: 600_000 });
  const ms = performance.now() - start;
  const longestTask = await page.evaluate(
    () => (window as unknown as { longestTask: number }).longestTask,
  );
  await context.close();
  return { ms, longestTask };
}

/** The same list read by native DuckDB alone. */
async function millionNative(): Promise<number> {
  const bare = await (await DuckDBInstance.create(':memory:')).connect();
  const ms = await timed(3, () =>
    bare.run('CREATE OR REPLACE TABLE t AS SELECT * FROM read_csv(?, all_varchar = true)', [
      million,
    ]),
  );
  bare.closeSync();
  return ms;
}

function print(lines: readonly Line[]): void {
  const rows = lines.map(({ work, baseline, baselineMs, ms }) => ({
    work,
    'ms (median)': Math.round(ms),
    baseline,
    'baseline ms': Math.round(baselineMs),
    ratio: Math.round((ms / baselineMs) * 100) / 100,
  }));
  console.table(rows);
}

const server = await preview({ preview: { port: 4473 }, logLevel: 'error' });
const origin = server.resolvedUrls!.local[0]!;
const browser = await launch();
try {
  const size = writePortfolio(100_000);
  const alone = await nativeAlone();
  const { full, means } = await intervalsInPage(browser);
  writeMillion();
  const { ms, longestTask } = await millionInPage(browser, origin);
  print([
    {
      work: 'demo: navigation to ranked table and drawn map, warm cache',
      ms: await demoInPage(browser, origin),
      baseline: 'the engine’s start alone',
      baselineMs: await engineStart(browser),
    },
    {
      work: `${size}: CSV bytes to ranked table, page`,
      ms: await filesInPage(browser, origin),
      baseline: 'native DuckDB alone',
      baselineMs: alone,
    },
    {
      work: `${size}: CSV bytes to ranking with intervals, page’s engine`,
      ms: full,
      baseline: 'the same with means alone (goal ≤ 3×)',
      baselineMs: means,
    },
    {
      work: `${size}: CSV bytes to ranking, command line`,
      ms: await commandLine(),
      baseline: 'native DuckDB alone',
      baselineMs: alone,
    },
    {
      work: `1M buildings: CSV bytes to open and scored, page (longest task ${Math.round(longestTask)} ms, goal < 100)`,
      ms,
      baseline: 'native DuckDB reading the CSV alone',
      baselineMs: await millionNative(),
    },
  ]);
} finally {
  await browser.close();
  await server.close();
  rmSync(folder, { recursive: true });
}
