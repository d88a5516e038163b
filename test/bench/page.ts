import type { Browser, Page } from 'playwright-core';

export const viewport = { width: 1440, height: 900 };

/** A page of its own context, closed after the work. */
export async function onPage<Result>(
  browser: Browser,
  work: (page: Page) => Promise<Result>,
): Promise<Result> {
  const context = await browser.newContext({ viewport, serviceWorkers: 'block' });
  try {
    return await work(await context.newPage());
  } finally {
    await context.close();
  }
}

/** Waits until the table shows its first row and the map, where asked for, has drawn. */
export async function shown(page: Page, map: boolean): Promise<void> {
  await page.waitForSelector('tbody tr.row[aria-rowindex="2"] .building-name', {
    timeout: 180_000,
  });
  if (map) await page.waitForSelector('[data-drawn=yes]', { timeout: 180_000 });
}

/** The files chosen on the page of sources, ready to be read. */
async function choose(page: Page, origin: string, files: readonly string[]): Promise<void> {
  await page.goto(`${origin}#/sources`);
  await page.getByText('Open now').waitFor({ timeout: 60_000 });
  await page.getByLabel(/Drop your files here/).setInputFiles([...files]);
  await page
    .locator('.held-summary')
    .nth(files.length - 1)
    .waitFor({ timeout: 120_000 });
}

interface Watched {
  longestTask: number;
}

const watchTasks = (page: Page) =>
  page.evaluate(() => {
    const watched = Object.assign(window, { longestTask: 0 }) as unknown as Watched;
    new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) {
        watched.longestTask = Math.max(watched.longestTask, duration);
      }
    }).observe({ type: 'longtask' });
  });

export interface Ranked {
  readonly ms: number;
  readonly longestTask: number;
}

/** From the click that reads the files to the table of their ranking, and the longest task of the page meanwhile, ms. */
export async function rankFiles(
  page: Page,
  origin: string,
  files: readonly string[],
): Promise<Ranked> {
  await choose(page, origin, files);
  await watchTasks(page);
  const start = performance.now();
  await page.getByRole('button', { name: 'Read these files' }).click();
  await page.getByText('Open now: your files').waitFor({ timeout: 900_000 });
  await page.getByRole('link', { name: 'Rank' }).click();
  await shown(page, false);
  const ms = performance.now() - start;
  const longestTask = await page.evaluate(() => (window as unknown as Watched).longestTask);
  return { ms, longestTask };
}

/** What is done to an element of the page: a click, or the next value of a slider. */
interface Act {
  readonly selector: string;
  readonly value?: string;
}

/** From the act to the frame after the one in which the rows in view have changed, ms. */
export const repainted = (page: Page, act: Act): Promise<number> =>
  page.evaluate(
    ({ selector, value }) =>
      new Promise<number>((resolve) => {
        const rows = () => document.querySelector('tbody.rows')?.textContent;
        const before = rows();
        const element = document.querySelector<HTMLInputElement>(selector)!;
        const start = performance.now();
        const look = () => {
          const busy = document.querySelector('.ranking[aria-busy=true]');
          if (busy || rows() === before) requestAnimationFrame(look);
          else requestAnimationFrame(() => resolve(performance.now() - start));
        };
        if (value === undefined) element.click();
        else {
          element.value = value;
          element.dispatchEvent(new Event('input', { bubbles: true }));
        }
        requestAnimationFrame(look);
      }),
    act,
  );
