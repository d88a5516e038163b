import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { generateDemo } from '../../data/demo/generate.ts';
import { inputs, session } from '../session/open.ts';
import { watchedVisits } from './watched.ts';

const opened = watchedVisits();

const rowAt = (page: Page, place: number) =>
  page.locator(`tbody tr.row[aria-rowindex="${place + 1}"]`);
async function ranked(page: Page): Promise<void> {
  await rowAt(page, 1).locator('.building-name').waitFor({ timeout: 60_000 });
}
const drawn = (page: Page) => page.waitForSelector('[data-drawn=yes]', { timeout: 60_000 });
const names = (page: Page) => page.locator('tbody tr.row .building-name').allInnerTexts();
const csv = (name: string, text: string) => ({
  name,
  mimeType: 'text/csv',
  buffer: Buffer.from(text),
});

const buildings = `building_id,name,city,region,latitude,longitude,storeys,use,roof,insured_value,currency
T1,Tern House,Seattle,WA,47.61,-122.33,4,apartment,low,5200000,USD
T2,Wren Row,Phoenix,AZ,33.45,-112.07,2,townhouse,low,900000,USD
T3,"<img src=x onerror=alert(1)>",Vancouver,BC,49.26,-123.11,3,townhouse,steep,,CAD
T3,Again,Vancouver,BC,49.26,-123.11,3,townhouse,steep,,CAD
T4,No place,,,,,2,house,steep,,
`;
const walls = `building_id,wall_id,material,drainage,sheathing,installed
T1,north,stucco,none,OSB,1996
T9,lost,stucco,none,OSB,1996
`;

async function readFiles(page: Page, buildingList: string, wallList?: string): Promise<void> {
  await page.getByRole('link', { name: 'Sources' }).click();
  await give(page, csv('mine.csv', buildingList));
  if (wallList) await give(page, csv('my-walls.csv', wallList));
  await page.getByRole('button', { name: 'Read these files' }).click();
}

/** Gives a file and waits until it is at hand. */
async function give(page: Page, file: string | ReturnType<typeof csv>): Promise<void> {
  await page.getByLabel(/Drop your files here/).setInputFiles(file);
  const name = typeof file === 'string' ? file.split('/').at(-1)! : file.name;
  await page.locator('.held-name', { hasText: name }).waitFor();
}

describe('the invented example', () => {
  test('opens by itself, ranked, marked as invented, with its cautions', async () => {
    const page = await opened();
    await ranked(page);
    expect(await page.getByText('Invented example').isVisible()).toBe(true);
    expect(await page.getByText('Screening, not diagnosis.').first().isVisible()).toBe(true);
    const counts = await page.locator('.tier-pick .count').allInnerTexts();
    expect(counts.reduce((sum, text) => sum + Number(text), 0)).toBeGreaterThan(350);
    await drawn(page);
  });

  test.each([
    ['CSV', 'csv'],
    ['JSON', 'json'],
    ['GeoJSON', 'geojson'],
  ] as const)('saved as %s has the bytes that the native engine gives', async (button, format) => {
    const page = await opened();
    await ranked(page);
    const saved = page.waitForEvent('download', {
      predicate: (download) => !download.suggestedFilename().includes('about'),
    });
    await page.getByRole('button', { name: button, exact: true }).click();
    const download = await saved;
    const { buildingsCsv, wallsCsv } = generateDemo({});
    const native = await session();
    await native.open(inputs(buildingsCsv, wallsCsv));
    const { bytes } = await native.write(format, 'metric');
    expect(Buffer.compare(readFileSync(await download.path()), bytes)).toBe(0);
  });
});

describe('files of one’s own', () => {
  test('are read, balanced and ranked; what was set aside is shown with its reason', async () => {
    const page = await opened();
    await ranked(page);
    await readFiles(page, buildings, walls);
    await page.getByText('already used in row 4').first().waitFor();
    await page.getByText('no building T9 in the building list').first().waitFor();
    await page.getByRole('link', { name: 'Rank' }).click();
    await ranked(page);
    expect(await names(page)).toEqual(['Tern House', expect.any(String), expect.any(String)]);
    expect(await page.getByText('Invented example').count()).toBe(0);
  });

  test('with markup in a name show it as text', async () => {
    const page = await opened();
    await ranked(page);
    await readFiles(page, buildings);
    await page.getByText('already used in row 4').first().waitFor();
    await page.getByRole('link', { name: 'Rank' }).click();
    await ranked(page);
    expect(await names(page)).toContain('<img src=x onerror=alert(1)>');
    expect(await page.locator('img[src=x]').count()).toBe(0);
  });

  test.each([
    ['no building_id heading', 'latitude,longitude\n47,-122\n47,-122\n', 'building_id'],
    ['an empty file', '', 'empty'],
    ['a binary file', 'PK\u0003\u0004\u0000\u0000binary', 'mine.csv'],
    ['no usable place', 'building_id,latitude,longitude\nA,north,west\n', 'mine.csv'],
  ])('%s is refused in words and the example stays', async (_, text, words) => {
    const page = await opened();
    await ranked(page);
    const before = await names(page);
    await readFiles(page, text);
    const said = page.locator('.refusal');
    await said.waitFor();
    expect(await said.textContent()).toContain(words);
    await page.getByRole('link', { name: 'Rank' }).click();
    await ranked(page);
    expect(await names(page)).toEqual(before);
  });
});

describe('the ranked table', () => {
  test('sorts by a heading, reverses, and goes back to the ranking', async () => {
    const page = await opened();
    await ranked(page);
    const byIndex = await names(page);
    const heading = page.getByRole('button', { name: /^Wetting/ });
    const column = page.locator('th', { has: heading });
    await heading.click();
    await page.waitForFunction(() => document.querySelector('[aria-sort=descending]'));
    await expect.poll(() => names(page)).not.toEqual(byIndex);
    await heading.click();
    await page.waitForFunction(() => document.querySelector('[aria-sort=ascending]'));
    await heading.click();
    await page.waitForFunction(() => !document.querySelector('[aria-sort=ascending]'));
    await ranked(page);
    expect(await column.getAttribute('aria-sort')).toBe('none');
    await expect.poll(() => names(page)).toEqual(byIndex);
  });

  test('filters by tier, search and height, says so in a sentence, and can be cleared', async () => {
    const page = await opened();
    await ranked(page);
    await page.getByRole('button', { name: /^Not scored \d/ }).click();
    await expect
      .poll(() => page.locator('tbody tr.row .at-tier').allInnerTexts())
      .toEqual(expect.arrayContaining([expect.stringContaining('Not scored')]));
    for (const tier of await page.locator('tbody tr.row .at-tier').allInnerTexts()) {
      expect(tier).toContain('Not scored');
    }
    await page.getByRole('searchbox').fill('no such building at all');
    await page
      .getByText(/no building/i)
      .first()
      .waitFor();
    await page.getByRole('button', { name: /clear/i }).first().click();
    await ranked(page);
    await page.getByRole('searchbox').fill('seattle');
    await expect
      .poll(() => page.locator('tbody tr.row .building-place').allInnerTexts())
      .toEqual(expect.arrayContaining([expect.stringContaining('Seattle')]));
    await expect
      .poll(async () =>
        (await page.locator('tbody tr.row .building-place').allInnerTexts()).every((text) =>
          text.includes('Seattle'),
        ),
      )
      .toBe(true);
  });

  test('is walked by the keyboard: down selects the next, Enter opens, Escape goes back', async () => {
    const page = await opened();
    await ranked(page);
    await page.getByRole('grid').focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    await expect.poll(() => page.locator('tbody tr.row[aria-selected=true]').count()).toBe(1);
    const name = await page
      .locator('tbody tr.row[aria-selected=true] .building-name')
      .textContent();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: name ?? '' }).waitFor();
  });

  test('keeps view, filters and selection in the address', async () => {
    const page = await opened();
    await ranked(page);
    await page.getByRole('button', { name: /^Keep watch \d/ }).click();
    await rowAt(page, 1).getByText('Keep watch').waitFor();
    await rowAt(page, 2).click();
    await expect.poll(() => page.url()).toContain('b=');
    const address = page.url();
    await page.goto('about:blank');
    await page.goto(address);
    await ranked(page);
    expect(
      await page.getByRole('button', { name: /^Keep watch \d/ }).getAttribute('aria-pressed'),
    ).toBe('true');
    await expect.poll(() => page.locator('tbody tr.row[aria-selected=true]').count()).toBe(1);
  });
});

describe('map and table are linked', () => {
  test('a building stepped to on the map is the one selected in the table', async () => {
    const page = await opened();
    await ranked(page);
    await drawn(page);
    const map = page.getByRole('figure', { name: 'Rain sheet' });
    await map.locator('canvas').focus();
    await page.keyboard.press('n');
    await page.locator('.rain-map-note').waitFor();
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('tbody tr.row[aria-selected=true]').count()).toBe(1);
  });

  test('a hand over a mark reads its reason, and a click selects its row', async () => {
    const page = await opened();
    await ranked(page);
    await readFiles(page, buildings, walls);
    await page.getByText('already used in row 4').first().waitFor();
    await page.getByRole('link', { name: 'Rank' }).click();
    await ranked(page);
    await drawn(page);
    const canvas = page.locator('.rain-map canvas').first();
    const { x, width } = (await canvas.boundingBox())!;
    const note = page.locator('.rain-map-note');
    // A step by keyboard shows a note 14 px above or below its mark; the hand then feels along these two lines.
    await canvas.focus();
    await page.keyboard.press('n');
    await note.waitFor();
    const box = (await note.boundingBox())!;
    await page.keyboard.press('Escape');
    await expect.poll(() => note.count()).toBe(0);
    const lines = [box.y + box.height + 14, box.y - 14];
    const places = lines.flatMap((line) =>
      Array.from({ length: Math.floor(width / 5) }, (_, i) => [x + 5 * i, line] as const),
    );
    for (const [at, line] of places) {
      await page.mouse.move(at, line);
      await page.waitForTimeout(40);
      if ((await note.count()) === 0) continue;
      await page.mouse.click(at, line);
      break;
    }
    expect(await note.textContent()).toMatch(/a year|Not scored/);
    await expect.poll(() => page.locator('tbody tr.row[aria-selected=true]').count()).toBe(1);
  });
});

test('a number opens its ledger down to the grid nodes, and Escape folds it back', async () => {
  const page = await opened();
  await ranked(page);
  const figure = rowAt(page, 1).locator('.at-index button').first();
  await figure.click();
  const note = page.getByRole('dialog', { name: /^Ledger/ });
  await note.getByText('100 · w^α · d^β · s^γ').first().waitFor();
  await page.keyboard.press('Escape');
  await expect.poll(() => note.count()).toBe(0);
});

describe('numbers that open', () => {
  test('a walk: a building, its rain down to nodes and stations, its need then and now, the record to chase', async () => {
    const page = await opened();
    await ranked(page);
    await rowAt(page, 7).locator('.building-name').click();
    const sheet = page.getByRole('article', { name: 'Building' });
    await sheet.getByText('Records worth chasing').waitFor();
    expect(await sheet.getByText(/% of the spread/).count()).toBeGreaterThan(0);
    await sheet.getByRole('heading', { name: 'Asked then, asked now' }).waitFor();
    expect(await sheet.getByText('read as today’s').count()).toBeGreaterThan(0);
    await sheet
      .getByRole('button', { name: /how Rain comes about/ })
      .first()
      .click();
    const note = page.getByRole('dialog', { name: /^Ledger/ });
    await note.getByText('exp(Σ share · ln(normal) + period shift)').waitFor();
    await note
      .getByText(/km away; the grid says/)
      .first()
      .waitFor();
    await note.getByText('grid value', { exact: true }).first().waitFor();
  });

  test('records worth chasing stand beside the ranking with three questions', async () => {
    const page = await opened();
    await ranked(page);
    const panel = page.getByRole('region', { name: 'Records worth chasing' });
    await panel.getByText(/scored places lie in one/).waitFor();
    expect(await panel.locator('ol li').count()).toBe(3);
  });

  test('a setting moves the ranking at once, says how far, and is saved, read and reset', async () => {
    const page = await opened();
    await ranked(page);
    const counts = () => page.locator('.tier-pick .count').allInnerTexts();
    const before = await counts();
    await page.getByRole('link', { name: 'Settings' }).click();
    await page.getByLabel(/Wetting at which the load/).fill('50');
    await page.getByLabel(/Wetting at which the load/).press('Enter');
    await page.getByText(/buildings changed tier/).waitFor();
    const saved = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save settings to a file' }).click();
    const file = readFileSync(await (await saved).path(), 'utf8');
    expect(JSON.parse(file)).toEqual({ constants: { half_load_l_m2: 50 } });
    await page.getByRole('link', { name: 'Rank' }).click();
    await ranked(page);
    expect(await counts()).not.toEqual(before);
    await page.getByRole('link', { name: 'Settings' }).click();
    await page.getByRole('button', { name: 'Reset all' }).click();
    await page.getByRole('link', { name: 'Rank' }).click();
    await expect.poll(counts).toEqual(before);
    await page.getByRole('link', { name: 'Settings' }).click();
    await page.getByLabel('Read settings from a file').setInputFiles({
      name: 'wrong.json',
      mimeType: 'application/json',
      buffer: Buffer.from('{"constants": {"weight_load": 7}}'),
    });
    await page.getByText('wrong.json: A weight lies between 0 and 3.').waitFor();
  });

  test('a weather record is drawn as a rose with the limits of the standard', async () => {
    const page = await opened();
    await ranked(page);
    await page.getByRole('link', { name: 'Sources' }).click();
    await give(page, csv('mine.csv', buildings));
    await give(page, 'test/reference/weather/airfield.csv');
    await page.getByRole('button', { name: 'Read these files' }).click();
    await page.getByText('already used in row 4').first().waitFor();
    await page.getByRole('link', { name: 'Method' }).click();
    await page.getByRole('heading', { name: 'Driving rain of airfield.csv' }).waitFor();
    expect(await page.locator('.roses svg').count()).toBe(3);
    expect(await page.getByText(/not meant for mountainous places/).count()).toBe(1);
    await page.getByText('Wall index (ISO 15927-3) for one wall').click();
    await page.getByText(/wall factor W depends on the kind of wall and has no default/).waitFor();
    await page.getByLabel('W, yours').fill('0.4');
    await page.getByLabel('Terrain category').selectOption('III');
    await page.getByLabel('Height of the wall, m').fill('10');
    await page.getByLabel('Obstruction at, m').fill('30');
    // C_R of terrain III at 10 m: ISO 15927-3 form, 0.22 · ln(10 / 0.3) = 0.771.
    await page.getByText(/C_R 0\.771 · C_T 1 \(level ground assumed\) · O 0\.5 · W 0\.4/).waitFor();
  });

  test.each([
    ['latitude,longitude,normal_mm\n40,-100,30\n41,-101,35\n42,-99,28\n39,-98,33\n', 'in'],
    ['latitude,longitude,normal_mm\n40,-100,-600\n', '-600'],
  ])('stations in doubt are refused or questioned in words', async (text, words) => {
    const page = await opened();
    await ranked(page);
    await page.getByRole('link', { name: 'Sources' }).click();
    await give(page, csv('mine.csv', buildings));
    await give(page, csv('gauges.csv', text));
    await page.getByRole('button', { name: 'Read these files' }).click();
    const said = page.locator('.refusal');
    await said.waitFor();
    expect(await said.textContent()).toContain('gauges.csv');
    expect(await said.textContent()).toContain(words);
  });
});
