import type { Browser, Page } from 'playwright-core';
import { median } from './line.ts';
import type { Work } from './map-probe/probe.ts';
import { serveMapProbe } from './map-probe/serve.ts';

type OnPage = <Result>(work: (page: Page) => Promise<Result>) => Promise<Result>;

/**
 * Gives each work a fresh page with the map alone, as large as beside the list of a wide screen; under reduced motion,
 * so that no time goes into gliding.
 */
async function withProbe<Result>(
  browser: Browser,
  measure: (onPage: OnPage) => Promise<Result>,
): Promise<Result> {
  const probe = await serveMapProbe();
  const viewport = { width: 760, height: 900 };
  const context = await browser.newContext({ viewport, reducedMotion: 'reduce' });
  try {
    return await measure(async (work) => {
      const page = await context.newPage();
      await page.goto(probe.origin);
      await page.waitForFunction(() => 'openSheet' in window);
      const result = await work(page);
      await page.close();
      return result;
    });
  } finally {
    await context.close();
    await probe.close();
  }
}

async function repeated<Result>(times: number, work: () => Promise<Result>): Promise<Result[]> {
  const results: Result[] = [];
  for (let i = 0; i < times; i++) results.push(await work());
  return results;
}

/**
 * From columns in hand to everything drawn, and the same buildings, as features in hand, through MapLibre's plain
 * GeoJSON source drawn as circles, ms. Medians; a million features take a minute and more, so they are drawn once.
 */
export function firstMap(
  browser: Browser,
  n: number,
): Promise<{ readonly ms: number; readonly plainMs: number }> {
  return withProbe(browser, async (onPage) => {
    const sheet = () => onPage((page) => page.evaluate((n) => window.openSheet(n), n));
    const plain = () => onPage((page) => page.evaluate((n) => window.openPlain(n), n));
    const ms = median(await repeated(3, sheet));
    return { ms, plainMs: median(await repeated(n > 200_000 ? 1 : 3, plain)) };
  });
}

const rounds: readonly Work[] = ['nearer', 'aside', 'nearer', 'aside', 'farther', 'farther'];
const changes: readonly Work[] = ['rerank', 'filter', 'rerank', 'unfilter'];

/**
 * Works of an open map until all is drawn again, ms, medians over steps that begin with the whole portfolio in view:
 * `move` a zoom or a step aside, `change` another ranking or filter.
 */
export function openMap(
  browser: Browser,
  n: number,
): Promise<{ readonly move: number; readonly change: number }> {
  const doAll = async (page: Page, works: readonly Work[]) => {
    const taken: number[] = [];
    for (const work of works) taken.push(await page.evaluate((w) => window.befall(w), work));
    return taken;
  };
  return withProbe(browser, (onPage) =>
    onPage(async (page) => {
      await page.evaluate((n) => window.openSheet(n), n);
      const change = await repeated(2, () => doAll(page, changes));
      const move = await repeated(2, () => doAll(page, rounds));
      return { move: median(move.flat()), change: median(change.flat()) };
    }),
  );
}
