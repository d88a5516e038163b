import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { serveCopy } from './serve-copy.ts';
import { watchedVisits } from './watched.ts';

let folder: string;
let server: Awaited<ReturnType<typeof serveCopy>>;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'rainledger-offline-'));
  cpSync('dist/page', folder, { recursive: true });
  server = await serveCopy(folder);
});
afterEach(async () => {
  await server.close();
  rmSync(folder, { recursive: true });
});
// After the server's own: of the hooks after a test the last one registered runs first, and a visit ends before its server.
const opened = watchedVisits();

/** The first visit, until the page says that it can do without a network. */
async function firstVisit(): Promise<Page> {
  const page = await opened('', { serviceWorkers: 'allow' }, server.origin);
  await ranked(page);
  await page.getByRole('button', { name: 'Works offline.' }).waitFor({ timeout: 60_000 });
  return page;
}

const firstName = (page: Page) => page.locator('tbody tr.row .building-name').first();
const ranked = (page: Page) => firstName(page).waitFor({ timeout: 60_000 });
const view = (page: Page, name: string) =>
  page.getByRole('navigation', { name: 'Views' }).getByRole('link', { name, exact: true }).click();

async function read(
  page: Page,
  ...files: Parameters<ReturnType<Page['getByLabel']>['setInputFiles']>[0][]
) {
  await view(page, 'Sources');
  for (const file of files) await page.getByLabel(/Drop your files here/).setInputFiles(file);
  await page.getByRole('button', { name: 'Read these files' }).click();
  await page.getByText('Open now: your files').waitFor({ timeout: 60_000 });
}

const account = (page: Page, label: string) =>
  page.getByRole('region', { name: label, exact: true }).locator('.sum').textContent();

describe('after the first visit', () => {
  test('the page opens without its server, under the same policy, ranks, draws, and opens views never seen', async () => {
    const page = await firstVisit();
    const names = await page.locator('tbody tr.row .building-name').allInnerTexts();
    await server.close();
    const answer = (await page.reload())!;
    expect(answer.fromServiceWorker()).toBe(true);
    const policy = answer.headers()['content-security-policy'];
    expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval'");
    expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'|https?:/);
    await ranked(page);
    expect(await page.locator('tbody tr.row .building-name').allInnerTexts()).toEqual(names);
    await page.waitForSelector('[data-drawn=yes]', { timeout: 60_000 });
    for (const name of ['Sample', 'Findings', 'Settings', 'Method']) {
      await view(page, name);
      await page.getByRole('heading', { level: 2, name }).waitFor();
    }
  });

  test('a workbook, a GeoTIFF and an HDF5 grid, whose readers no visit had loaded, are read without the server', async () => {
    const page = await firstVisit();
    await server.close();
    await page.reload();
    await ranked(page);
    await read(page, 'test/reference/owners/schedule-of-values.xlsx');
    expect(await account(page, 'schedule-of-values.xlsx, buildings')).toMatch(
      /61 rows read.*60 accepted.*1 set aside/s,
    );
    // Inside the invented grids of test/reference/grids, which lie over the Great Plains.
    const plains = 'building_id,latitude,longitude\nA,42.5,-102.5\nB,43,-101.5\n';
    const list = { name: 'plains.csv', mimeType: 'text/csv', buffer: Buffer.from(plains) };
    for (const grid of ['tile-deflate-float.tif', 'plain-hdf5.nc']) {
      await read(page, list, `test/reference/grids/${grid}`);
      await view(page, 'Rank');
      await page.locator('.table-foot', { hasText: grid }).waitFor();
    }
  });

  test('the browser is told all that it needs to install it, with icons of the sizes they claim', async () => {
    const page = await opened('', {}, server.origin);
    await ranked(page);
    const manifest = JSON.parse(
      await page.evaluate(async () => {
        const link = document.querySelector<HTMLLinkElement>('link[rel=manifest]')!;
        return (await fetch(link.href)).text();
      }),
    );
    expect(manifest).toMatchObject({
      name: 'Rainledger',
      start_url: './',
      scope: './',
      display: 'standalone',
    });
    for (const { src, sizes } of manifest.icons) {
      const size = await page.evaluate(async (path) => {
        const { width, height } = await createImageBitmap(await (await fetch(path)).blob());
        return `${width}x${height}`;
      }, src);
      expect(size).toBe(sizes);
    }
    expect(new Set(manifest.icons.map(({ purpose }: { purpose: string }) => purpose))).toEqual(
      new Set(['any', 'maskable']),
    );
    const client = await page.context().newCDPSession(page);
    const { installabilityErrors } = await client.send('Page.getInstallabilityErrors');
    // Headless contexts are private ones, which offer no installing.
    expect(
      installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito'),
    ).toEqual([]);
  });
});

describe('a newer version', () => {
  /** What a new build changes: the list of files, and with it the bytes of the worker. */
  const publish = () => {
    const page = readFileSync(join(folder, 'index.html'), 'utf8');
    writeFileSync(
      join(folder, 'index.html'),
      page.replace('<html lang="en">', '<html lang="en" data-edition="2">'),
    );
    const worker = readFileSync(join(folder, 'sw.js'), 'utf8');
    writeFileSync(
      join(folder, 'sw.js'),
      worker.replace(/(index\.html",revision:")[0-9a-f]+/, '$1newer'),
    );
  };
  const edition = (page: Page) => page.evaluate(() => document.documentElement.dataset.edition);
  const notice = (page: Page) => page.getByText('A new version of Rainledger is here.');

  test('is never taken up unasked; asked for, it opens what was open', async () => {
    const page = await firstVisit();
    await read(page, 'test/reference/owners/schedule-of-values.xlsx');
    publish();
    await page.reload();
    await notice(page).waitFor({ timeout: 60_000 });
    expect(await edition(page)).toBeUndefined();
    await page.getByText('Your workspace is kept').waitFor();
    await page.getByRole('button', { name: 'Load it now' }).click();
    await expect.poll(() => edition(page).catch(() => ''), { timeout: 30_000 }).toBe('2');
    await view(page, 'Sources');
    await page.getByText('Open now: your files').waitFor({ timeout: 60_000 });
    expect(await notice(page).count()).toBe(0);
  });

  test('put off stays off until the page is opened again; a second tab is told when the first takes it up', async () => {
    const first = await firstVisit();
    publish();
    await first.reload();
    await notice(first).waitFor({ timeout: 60_000 });
    await first.getByRole('button', { name: 'Not now' }).click();
    await notice(first).waitFor({ state: 'detached' });
    const second = await first.context().newPage();
    await second.goto(server.origin);
    await notice(second).waitFor({ timeout: 60_000 });
    await second.getByRole('button', { name: 'Load it now' }).click();
    await first
      .getByText('Another tab took up a new version of Rainledger.')
      .waitFor({ timeout: 30_000 });
    expect(await edition(first)).toBeUndefined();
    await first.getByRole('button', { name: 'Load it here too' }).click();
    await expect.poll(() => edition(first).catch(() => ''), { timeout: 30_000 }).toBe('2');
  });
});
