import { existsSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import type { Browser } from 'playwright-core';
import type {} from '../browser/probe/probe.ts';
import { serveProbe } from '../browser/probe/serve.ts';
import { type Bench, type Line, timed } from './line.ts';
import { onPage, shown } from './page.ts';

/** The engine's own start in the same browser, nothing cached: fetch, compile, first answer. */
async function engineStart(browser: Browser): Promise<number> {
  const probe = await serveProbe();
  const ms = await timed(5, () =>
    onPage(browser, async (page) => {
      await page.goto(probe.origin);
      await page.waitForFunction(() => 'engine' in window);
      await page.evaluate(async () => (await window.engine).query('SELECT 1'));
    }),
  );
  await probe.close();
  return ms;
}

/** Scripts and styles of a first visit, until the example is ranked. */
async function loaded(browser: Browser, origin: string): Promise<ReadonlyMap<string, Buffer>> {
  const found = new Map<string, Buffer>();
  await onPage(browser, async (page) => {
    const bodies: Promise<unknown>[] = [];
    page.context().on('response', (response) => {
      const name = /\/([^/?]+\.(?:m?js|css))(?:\?|$)/.exec(response.url())?.[1];
      if (!name) return;
      bodies.push(
        response.body().then(
          (body) => found.set(name, body),
          () => {},
        ),
      );
    });
    await page.goto(origin);
    await shown(page, true);
    await Promise.all(bodies);
  });
  return found;
}

/** Packages that are counted apart: map and engine. */
const apart = /^(?:maplibre-gl|@maplibre\/.*|@duckdb\/.*|apache-arrow)$/;

/** Files of which most is map or engine, by what the build says lies in them. */
function ownSize(files: ReadonlyMap<string, Buffer>): number {
  const list = 'dist/page/.vite/chunks.json';
  const chunks: Record<string, { packages: Record<string, number> }> = existsSync(list)
    ? JSON.parse(readFileSync(list, 'utf8'))
    : {};
  const named = new Map(
    Object.entries(chunks).map(([path, chunk]) => [path.split('/').at(-1)!, chunk]),
  );
  let bytes = 0;
  for (const [name, body] of files) {
    const packages = Object.entries(named.get(name)?.packages ?? {});
    const [most] = packages.sort((a, b) => b[1] - a[1]);
    if (/duckdb|maplibre/.test(name) || (most && apart.test(most[0]))) continue;
    bytes += gzipSync(body).length;
  }
  return bytes / 1000;
}

/** First visit to the ranked example, nothing cached. */
export async function firstVisit(bench: Bench): Promise<readonly Line[]> {
  const browser = await bench.browser();
  const origin = await bench.origin();
  const visit = () =>
    onPage(browser, async (page) => {
      await page.goto(origin);
      await shown(page, false);
    });
  const figure = await timed(5, visit);
  const files = await loaded(browser, origin);
  return [
    {
      work: 'first visit, nothing cached: navigation to the ranked example',
      figure,
      unit: 'ms',
      baseline: await engineStart(browser),
      baselineName: 'the engine’s start alone',
      goal: { over: 1500 },
    },
    {
      work: 'first visit: scripts and styles but for map and engine, gzip',
      figure: ownSize(files),
      unit: 'kB',
      baseline: null,
      baselineName: '',
      goal: { most: 200 },
    },
  ];
}
