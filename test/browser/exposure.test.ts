import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import type { Download, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { watchedVisits } from './watched.ts';

const opened = watchedVisits();

/** The first number of a text, without the commas of thousands; NaN where it has none. */
const first = (text: string | null): number =>
  Number(/\d[\d,]*(\.\d+)?/.exec(text ?? '')?.[0].replaceAll(',', '') ?? Number.NaN);

async function exposure(fragment = ''): Promise<Page> {
  const page = await opened(`#/exposure${fragment}`);
  await page.locator('.exposure-pivot tfoot').waitFor({ timeout: 60_000 });
  return page;
}

/** What the pivot shows in each cell: one of the words of its choice. */
const showing = (page: Page, word: string) =>
  page.getByRole('region', { name: 'Pivot' }).getByText(word, { exact: true }).click();

const total = async (page: Page): Promise<number> =>
  first(await page.locator('.exposure-pivot tfoot td').first().textContent());

/** Each row's sum over all columns, by its heading. */
async function rowSums(page: Page): Promise<Readonly<Record<string, number>>> {
  const rows = await page.locator('.exposure-pivot tbody tr').evaluateAll((found) =>
    found.map((row) => {
      const heads = [...row.querySelectorAll('th')].map((th) => th.textContent?.trim());
      return [heads.join(' × '), row.querySelector('td')?.textContent ?? ''] as const;
    }),
  );
  return Object.fromEntries(
    rows.map(([head, text]) => [head, Number.isNaN(first(text)) ? 0 : first(text)]),
  );
}

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

/** Buildings that Rank shows under the filters of the address. */
async function inRank(page: Page): Promise<number> {
  await page.getByRole('navigation').getByRole('link', { name: 'Rank', exact: true }).click();
  await page.locator('tbody .building-name').first().waitFor();
  return first(await page.locator('.sentence [role=status]').textContent());
}

async function backToExposure(page: Page): Promise<void> {
  await page.getByRole('navigation').getByRole('link', { name: 'Exposure' }).click();
  await page.locator('.exposure-pivot tfoot').waitFor();
}

describe('the totals of Exposure', () => {
  test('are of the buildings in Rank under the same filter, and both follow when it is taken away', async () => {
    const page = await exposure('?region=WA&tier=First+look&tier=Next+look');
    await showing(page, 'lines');
    const filtered = await total(page);
    expect(sum(Object.values(await rowSums(page)))).toBe(filtered);
    expect(await inRank(page)).toBe(filtered);
    await page.getByRole('button', { name: /remove WA/ }).click();
    const wider = async () => first(await page.locator('.sentence [role=status]').textContent());
    await expect.poll(wider).toBeGreaterThan(filtered);
    const shown = await wider();
    await backToExposure(page);
    await expect.poll(() => total(page)).toBe(shown);
    await page.getByRole('button', { name: 'clear it' }).click();
    await expect.poll(() => total(page)).toBeGreaterThan(shown);
    expect(await inRank(page)).toBe(sum(await tiersSaid(page, backToExposure)));
  });

  test('follow a filter whose word changes while they are shown', async () => {
    const page = await exposure('?region=WA');
    await showing(page, 'lines');
    const before = await total(page);
    await page.goto(page.url().replace('region=WA', 'region=BC'));
    await page.getByText(/^Lines in the region BC/).waitFor();
    await expect.poll(() => total(page)).not.toBe(before);
    const after = await total(page);
    expect(await inRank(page)).toBe(after);
  });

  test('stay what they are whatever divides them', async () => {
    const page = await exposure();
    for (const shown of ['insured value', 'lines', 'wall area']) {
      await showing(page, shown);
      const before = await total(page);
      for (const [place, dimension] of [
        ['Rows', 'material'],
        ['then by', 'era'],
        ['Columns', 'height'],
        ['Columns', ''],
        ['Rows', 'tier'],
        ['then by', ''],
        ['Columns', 'region'],
      ] as const) {
        await page.getByRole('combobox', { name: place, exact: true }).selectOption(dimension);
        await expect.poll(() => total(page)).toBe(before);
      }
    }
  });

  test('are those of the pivot file that is saved, in all and tier by tier', async () => {
    const page = await exposure('?region=WA&region=BC');
    const value = await rowSums(page);
    await showing(page, 'lines');
    const lines = await rowSums(page);
    const [rows, about] = await saved(page);
    const inFile = (tier: string, column: string, currency?: string) =>
      sum(
        rows
          .filter((row) => row.tier === tier && (!currency || row.currency === currency))
          .map((row) => Number(row[column])),
      );
    expect(Object.keys(lines)).toHaveLength(5);
    for (const tier of Object.keys(lines)) {
      expect(inFile(tier, 'lines')).toBe(lines[tier]);
      expect(inFile(tier, 'insured_value', 'USD')).toBe(value[tier]);
    }
    expect(sum(rows.map((row) => Number(row.lines)))).toBe(await total(page));
    expect(about.totals.lines).toBe(await total(page));
    expect(new Set(rows.map(({ filter }) => filter))).toEqual(new Set(['in the region WA or BC']));
    expect(new Set(rows.map(({ caution }) => caution))).toEqual(
      new Set(['SCREENING-NOT-DIAGNOSIS']),
    );
  });
});

/** Lines of each tier as the head of Exposure says them: *388 lines = First look 73 + … .* */
async function tiersSaid(page: Page, open: (page: Page) => Promise<void>): Promise<number[]> {
  await open(page);
  const said = await page.locator('.exposure-sentence').textContent();
  const parts = /= (.*?)\./.exec(said ?? '')?.[1]?.split(' + ') ?? [];
  return parts.map(first);
}

type Row = Readonly<Record<string, string>>;

/** The rows of *This table* and what its about file says, as they come out of the browser. */
async function saved(
  page: Page,
): Promise<readonly [readonly Row[], { totals: { lines: number } }]> {
  const named = (name: string): Promise<Download> =>
    page.waitForEvent('download', {
      predicate: (download) => download.suggestedFilename() === name,
    });
  const files = Promise.all(['exposure.csv', 'exposure.csv.about.json'].map(named));
  await page.getByRole('button', { name: 'This table' }).click();
  const [csv = '', about = ''] = await Promise.all(
    (await files).map(async (file) => readFileSync(await file.path(), 'utf8')),
  );
  const parsed = Papa.parse<Row>(csv.replace(/^\uFEFF/, ''), {
    header: true,
    skipEmptyLines: true,
  });
  return [parsed.data, JSON.parse(about)];
}

async function valueAndBuildings(page: Page): Promise<readonly number[]> {
  const value = await total(page);
  await showing(page, 'buildings');
  await expect
    .poll(() => page.locator('.exposure-says').nth(1).textContent())
    .toMatch(/^Buildings/);
  return [value, await total(page)];
}

describe('the threshold curve', () => {
  test('begins at index 0 with everything that has an index, and never rises', async () => {
    const page = await exposure();
    await page.getByText('The curve as a table').click();
    const rows = await page
      .locator('.exposure-curve tbody tr')
      .evaluateAll((found) =>
        found.map((row) => [...row.querySelectorAll('td')].map((td) => td.textContent ?? '')),
      );
    const columns = [0, 1, 2, 3, 4, 5].map((at) => rows.map((row) => first(row[at] ?? '')));
    const whole = await valueAndBuildings(page);
    const without = await valueAndBuildings(await exposure('?index='));
    // A reported leak may put a building into a tier without any index: it is in no curve.
    const [value = 0, buildings = 0] = whole.map((all, i) => all - (without[i] ?? Number.NaN));
    expect(value).toBeGreaterThan(0);
    expect(columns.map((column) => column[0])).toEqual([
      ...[value, value, value],
      ...[buildings, buildings, buildings],
    ]);
    for (const column of columns) expect(column).toEqual(column.toSorted((a, b) => b - a));
    await page.getByRole('slider', { name: 'Index' }).fill('0');
    const said = page.locator('.threshold figcaption');
    await expect.poll(() => said.textContent()).toMatch(/^At index 0 or above/);
    const words = (await said.textContent())?.replaceAll(',', '').replace(/\s/g, ' ');
    expect(words).toContain(`${value} USD in ${buildings} buildings`);
  });
});

describe('clusters', () => {
  const aside = (page: Page) => page.getByText(/^Left out of every circle/);

  test('rest on no place that is only the middle of a postal code, and count those aside', async () => {
    const page = await exposure();
    await page.locator('.exposure-clusters').waitFor();
    const left = first(await aside(page).textContent());
    const circles = () => page.locator('.exposure-clusters tbody th').allInnerTexts();
    // Names come after the circles.
    await expect.poll(async () => (await circles()).includes('…')).toBe(false);
    const all = await circles();
    await page.goto(page.url().replace(/#.*/, '#/exposure?place_source=postal+centroid'));
    await page.getByText(/^No located line of the first two tiers/).waitFor();
    await showing(page, 'lines');
    await expect.poll(() => total(page)).toBe(left);
    expect(await page.locator('.exposure-clusters').count()).toBe(0);
    expect(first(await aside(page).textContent())).toBe(left);
    await page.goto(page.url().replace(/#.*/, '#/exposure?place_source=coordinates'));
    await page.locator('.exposure-clusters').waitFor();
    expect(await aside(page).count()).toBe(0);
    await expect.poll(circles).toEqual(all);
  });
});
