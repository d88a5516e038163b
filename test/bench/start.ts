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

/** Files of the map and the engine (vite.config.ts), and those of tables and of libraries that the goal does not name. */
const mapAndEngine = /^(?:maplibre|duckdb|engine-client)/;
const beside = /^(?:tables|libraries)/;

/** Gzipped size of all files but those apart, kB. */
function sizeWithout(files: ReadonlyMap<string, Buffer>, ...apart: readonly RegExp[]): number {
  let bytes = 0;
  for (const [name, body] of files) {
    if (!apart.some((of) => of.test(name))) bytes += gzipSync(body).length;
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
      work: 'first visit: our own code with Solid, d3 and PapaParse, gzip',
      figure: sizeWithout(files, mapAndEngine, beside),
      unit: 'kB',
      baseline: null,
      baselineName: '',
      goal: { most: 200 },
    },
    {
      work: 'first visit: with other libraries and tables of data/, all but map and engine',
      figure: sizeWithout(files, mapAndEngine),
      unit: 'kB',
      baseline: null,
      baselineName: '',
      goal: null,
    },
  ];
}
