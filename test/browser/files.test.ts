import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launch } from './chromium.ts';
import { visit } from './visit.ts';
import { watchedVisits } from './watched.ts';

const owners = 'test/reference/owners';
const openData = join(dirname(createRequire(import.meta.url).resolve('vega-datasets')), '../data');

const opened = watchedVisits();

const sources = (options: object = {}): Promise<Page> => opened('#/sources', options);

/** Drops files on the page as a hand would: one event with all of them. */
async function drop(page: Page, paths: readonly string[]): Promise<void> {
  const files = paths.map((path) => ({
    name: path.split('/').at(-1)!,
    base64: readFileSync(path).toString('base64'),
  }));
  const zone = page.locator('.file-drop');
  await zone.waitFor();
  const transfer = await page.evaluateHandle((given) => {
    const data = new DataTransfer();
    for (const { name, base64 } of given) {
      const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
      data.items.add(new File([bytes], name));
    }
    return data;
  }, files);
  await zone.dispatchEvent('drop', { dataTransfer: transfer });
  for (const { name } of files) await page.locator('.held-name', { hasText: name }).waitFor();
}

const csv = (name: string, text: string) => ({
  name,
  mimeType: 'text/csv',
  buffer: Buffer.from(text),
});
const give = async (page: Page, file: ReturnType<typeof csv>): Promise<void> => {
  await page.getByLabel(/Drop your files here/).setInputFiles(file);
  await page.locator('.held-name', { hasText: file.name }).waitFor();
};

const read = async (page: Page): Promise<void> => {
  await page.getByRole('button', { name: 'Read these files' }).click();
  await page.getByText('Open now: your files').waitFor({ timeout: 60_000 });
};

/** The account of a file: rows read, accepted, one with an earlier row, set aside. */
async function account(page: Page, label: string): Promise<number[]> {
  const text = await page
    .getByRole('region', { name: label, exact: true })
    .locator('.sum')
    .textContent();
  return [...(text ?? '').replaceAll(',', '').matchAll(/\d+/g)].map(([digits]) => Number(digits));
}

const firstName = (page: Page) => page.locator('tbody tr.row .building-name').first();

async function ranked(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Rank' }).click();
  await firstName(page).waitFor({ timeout: 60_000 });
}

/** Keeps what a person would have seen, step by step, and how long each took. */
function recorder(name: string) {
  const folder = '.cache/walks';
  mkdirSync(folder, { recursive: true });
  const steps: { step: string; ms: number }[] = [];
  let last = performance.now();
  return {
    step: async (page: Page, step: string) => {
      steps.push({ step, ms: Math.round(performance.now() - last) });
      await page.screenshot({ path: join(folder, `${name}-${steps.length}.png`), fullPage: true });
      last = performance.now();
    },
    end: () => writeFileSync(join(folder, `${name}.json`), JSON.stringify(steps, null, 1)),
  };
}

describe('from drop to ranking, with the files owners have', () => {
  test.each([
    ['city-buildings.csv', 80, [80, 77, 3], 'T10'],
    ['schedule-of-values.xlsx', 61, [61, 60, 1], ''],
    ['inspection-log.csv', 36, [36, 9, 27, 0], 'Résidence Tern'],
  ])('%s', async (file, _rows, buildings, name) => {
    const page = await sources();
    const walk = recorder(file);
    await drop(page, [join(owners, file)]);
    await page.getByRole('button', { name: 'See and change how columns are read' }).click();
    await page.getByRole('heading', { name: 'First buildings as they will be read' }).waitFor();
    await page.getByRole('heading', { name: 'First walls as they will be read' }).waitFor();
    await walk.step(page, 'dropped, columns guessed');
    await read(page);
    expect(await account(page, `${file}, buildings`)).toEqual(buildings);
    await walk.step(page, 'read');
    await ranked(page);
    expect(await firstName(page).textContent()).toContain(name);
    await walk.step(page, 'ranked');
    walk.end();
  });

  test('a column is read otherwise, a word explained, and both hold for the next file alike', async () => {
    const page = await sources();
    await drop(page, [join(owners, 'city-buildings.csv')]);
    await page.getByRole('button', { name: 'See and change how columns are read' }).click();
    await page.getByLabel('Meaning of SYNTH STUCCO').selectOption('eifs');
    await page.getByText('Values not understood').waitFor({ state: 'detached' });
    await page.getByLabel('PERMIT_STATUS is read as').selectOption('building leak_history');
    await page.getByLabel('PERMIT_STATUS is read as').selectOption('');
    await page.getByLabel('Unit of HT_FT').selectOption('m');
    const first = page.getByRole('region', { name: 'First buildings as they will be read' });
    await first.getByRole('cell', { name: '14', exact: true }).first().waitFor();
    await page.getByLabel('Unit of HT_FT').selectOption('ft');
    await read(page);
    const text = readFileSync(join(owners, 'city-buildings.csv'), 'utf8');
    await give(page, csv('next-year.csv', text));
    await page.getByRole('button', { name: 'See and change how columns are read' }).click();
    await page.getByText('As an earlier file with the same headings was read.').waitFor();
    await read(page);
    expect(await page.getByText('is not a word known here').count()).toBe(0);
  });
});

test('two changes to a column map in one moment both hold', async () => {
  const page = await sources();
  await drop(page, [join(owners, 'city-buildings.csv')]);
  await page.getByRole('button', { name: 'See and change how columns are read' }).click();
  const changed = [
    ['Unit of HT_FT', 'm'],
    ['PERMIT_STATUS is read as', 'building leak_history'],
  ] as const;
  await page.getByLabel('Unit of HT_FT').waitFor();
  await page.evaluate((all) => {
    for (const [name, value] of all) {
      const select = document.querySelector<HTMLSelectElement>(`select[aria-label="${name}"]`)!;
      select.value = value;
      select.dispatchEvent(new Event('change', { bubbles: true }));
    }
  }, changed);
  await page.getByText('As you have set it.').waitFor();
  for (const [name, value] of changed) {
    expect(await page.getByLabel(name).inputValue(), name).toBe(value);
  }
});

describe('open data, unrenamed and unhelped', () => {
  test.each([
    ['airports.csv', 3376, 3300],
    ['zipcodes.csv', 42049, 41000],
    ['us-state-capitals.json', 50, 50],
  ])('%s is read and ranked', async (file, rows, least) => {
    const page = await sources();
    await drop(page, [join(openData, file)]);
    await read(page);
    const [all, accepted, ...others] = await account(page, `${file}, buildings`);
    expect(all).toBe(rows);
    expect(accepted).toBeGreaterThanOrEqual(least);
    expect(accepted! + others.reduce((sum, n) => sum + n, 0)).toBe(rows);
    await ranked(page);
  });
});

describe('rows set aside', () => {
  test('are mended by one click, corrected in place, and counts always balance', async () => {
    const page = await sources();
    await drop(page, [join(owners, 'city-buildings.csv')]);
    await read(page);
    await page.getByRole('button', { name: 'Exchange latitude and longitude' }).click();
    await expect.poll(() => account(page, 'city-buildings.csv, buildings')).toEqual([80, 78, 2]);
    await page.getByRole('button', { name: 'Change the sign of the longitude' }).click();
    await expect.poll(() => account(page, 'city-buildings.csv, buildings')).toEqual([80, 79, 1]);
    await page
      .getByRole('button', { name: 'Correct row 49 of city-buildings.csv' })
      .first()
      .click();
    await page.getByLabel(/^Building BLDG_ID/).fill('T10722-B');
    await page.getByRole('button', { name: 'Read the row again' }).click();
    await expect.poll(() => account(page, 'city-buildings.csv, buildings')).toEqual([80, 80, 0]);
    await page.reload();
    await firstName(page).or(page.locator('.file-outcome').first()).waitFor({ timeout: 60_000 });
    await page.getByRole('link', { name: 'Sources' }).click();
    await expect.poll(() => account(page, 'city-buildings.csv, buildings')).toEqual([80, 80, 0]);
  });

  test('are downloaded with a column for corrections that is read back', async () => {
    const page = await sources();
    await give(page, csv('list.csv', 'id,lat,lon\nA,47.6,-122.3\nB,north,-122.3\n'));
    await read(page);
    const saved = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Download as CSV' }).click();
    const path = await (await saved).path();
    const lines = readFileSync(path, 'utf8').split('\r\n');
    const corrected = lines.map((line) => (line.includes('north') ? `${line}47.61` : line));
    await page
      .getByLabel(/Drop your files here/)
      .setInputFiles(csv('set-aside.csv', corrected.join('\r\n')));
    await expect.poll(() => account(page, 'list.csv, buildings')).toEqual([2, 2, 0]);
  });
});

describe('nothing is lost', () => {
  const list = `id,name,lat,lon\n${Array.from({ length: 40 }, (_, i) => `B${i},House ${i},47.6,-122.3`).join('\n')}\n`;

  test.each(['analyst.worker', 'engine-entry'])(
    'when the thread %s dies: the page recovers with the same files',
    async (script) => {
      const page = await sources();
      await give(page, csv('list.csv', list));
      await read(page);
      await ranked(page);
      const before = await firstName(page).textContent();
      const again = page.waitForEvent('worker', {
        predicate: (worker) => worker.url().includes('analyst.worker'),
      });
      const worker = page.workers().find((each) => each.url().includes(script));
      await worker!.evaluate(() => self.close()).catch(() => {});
      await again;
      await page.getByRole('link', { name: 'Sources' }).click();
      await expect
        .poll(() => account(page, 'list.csv, buildings'), { timeout: 30_000 })
        .toEqual([40, 40, 0]);
      await ranked(page);
      expect(await firstName(page).textContent()).toBe(before);
      expect(await page.getByRole('alert').count()).toBe(0);
    },
  );

  test('when a reading is stopped: what was open before stays open', async () => {
    const page = await sources();
    await give(page, csv('list.csv', list));
    await read(page);
    const long = `id,lat,lon\n${'X,47.6,-122.3\n'.repeat(1_000_000)}`;
    await give(page, csv('long.csv', long));
    await page.getByRole('button', { name: 'Read these files' }).click();
    await page.getByRole('button', { name: 'Stop' }).click();
    await expect.poll(() => account(page, 'list.csv, buildings')).toEqual([40, 40, 0]);
    await ranked(page);
  });

  test('in a workspace saved to a file and opened in another browser', async () => {
    const page = await sources();
    await give(page, csv('list.csv', list));
    await read(page);
    await page.locator('.workspace-notes summary').click();
    await page.getByLabel('Notes').fill('Ask for the drawings of House 3.');
    const saved = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save to a file' }).click();
    const file = await (await saved).path();
    const other = await sources();
    await other.getByLabel(/Drop your files here/).setInputFiles({
      name: 'list.rainledger',
      mimeType: 'application/zip',
      buffer: readFileSync(file),
    });
    await expect.poll(() => account(other, 'list.csv, buildings')).toEqual([40, 40, 0]);
    await other.locator('.workspace-notes summary').click();
    expect(await other.getByLabel('Notes').inputValue()).toBe('Ask for the drawings of House 3.');
  });
});

describe('an example that does not come', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());
  /** A page whose example is kept from it, and how to let it through. */
  const without = async () => {
    const made = await visit(browser, 'icon-192.png');
    const { page } = made;
    // The browser's own sheet for a picture complains of the page's policy.
    made.errors.splice(0);
    await page.route('**/invented-*.csv', (route) => route.abort());
    await page.goto(`${new URL(page.url()).origin}/`);
    return { page, errors: () => made.errors.filter((one) => !/ERR_FAILED|404/.test(one)) };
  };

  test('is told in words, and one’s own files are read all the same', async () => {
    const { page, errors } = await without();
    await page.getByText('The invented example was not read. It could not be fetched.').waitFor();
    await page.getByRole('link', { name: 'Sources' }).click();
    await give(page, csv('list.csv', 'id,lat,lon\nA,47.6,-122.3\n'));
    await read(page);
    await ranked(page);
    await page.getByRole('link', { name: 'Sources' }).click();
    await page.getByRole('button', { name: 'Open the invented example' }).click();
    await page.getByRole('heading', { name: 'The invented example was not read' }).waitFor();
    expect(await account(page, 'list.csv, buildings')).toEqual([1, 1, 0]);
    await page.unroute('**/invented-*.csv');
    await page.getByRole('button', { name: 'Open the invented example' }).click();
    await page.getByText('Open now: the invented example').waitFor();
    expect(errors()).toEqual([]);
    await page.context().close();
  });

  test('while it is on its way, stands before files of one’s own, and can be stopped', async () => {
    const { page } = await visit(browser, 'icon-192.png');
    await page.route('**/invented-*.csv', () => {});
    await page.goto(`${new URL(page.url()).origin}/#/sources`);
    await give(page, csv('list.csv', 'id,lat,lon\nA,47.6,-122.3\n'));
    const button = page.getByRole('button', { name: 'Read these files' });
    expect(await button.isDisabled()).toBe(true);
    await page.getByRole('button', { name: 'Stop' }).click();
    await read(page);
    expect(await account(page, 'list.csv, buildings')).toEqual([1, 1, 0]);
    await page.context().close();
  });
});

describe('markup in any text', () => {
  const evil = '<img src=x onerror=alert(1)>';
  test('is shown as text: in headings, values, remarks, names, notes and file names', async () => {
    const page = await sources();
    const rows = [`A,${evil},${evil},47.6,-122.3,${evil}`, `${evil},B,,north,-122.3,`];
    await give(
      page,
      csv(
        `list ${evil.replace(/[<>=/]/g, '_')}.csv`,
        `id,name,${evil},lat,lon,use\n${rows.join('\n')}\n`,
      ),
    );
    await page.getByRole('button', { name: 'See and change how columns are read' }).click();
    await page.getByText(evil).first().waitFor();
    await read(page);
    await page.getByRole('textbox', { name: 'Workspace' }).fill(evil);
    await page
      .getByRole('button', { name: /^Correct row/ })
      .first()
      .click();
    await ranked(page);
    await firstName(page).click();
    await page.getByRole('heading', { name: evil }).waitFor();
    expect(await page.locator('img[src=x]').count()).toBe(0);
  });
});
