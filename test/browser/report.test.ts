import AxeBuilder from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { cautions } from '../../analysis/cautions.ts';
import { inventedMark } from '../../dashboard/report/footing.ts';
import { watchedVisits } from './watched.ts';

const opened = watchedVisits();

/** Asks for a printout and waits until its sheets are laid out. */
async function laidOut(page: Page, button: RegExp): Promise<void> {
  await page.getByRole('button', { name: button }).click({ timeout: 60_000 });
  await page.locator('.paper article').waitFor({ state: 'attached', timeout: 60_000 });
}

/** Pages of a PDF: one object each (ISO 32000, 7.7.3.3, `/Type /Page`). */
async function pages(page: Page, format: 'Letter' | 'A4'): Promise<number> {
  const pdf = (await page.pdf({ format })).toString('latin1');
  return pdf.match(/\/Type\s*\/Page\b/g)?.length ?? 0;
}

/** Which parts of the page print shows. */
const onPaper = (page: Page) =>
  page.evaluate(() =>
    [...document.body.children]
      .filter((element) => getComputedStyle(element).display !== 'none')
      .map((element) => element.className),
  );

/** Texts of the margin boxes, which stand on every page. */
const margins = (page: Page) =>
  page.evaluate(() => {
    const style = getComputedStyle(document.documentElement);
    return ['title', 'mark', 'foot'].map((name) => style.getPropertyValue(`--paper-${name}`));
  });

/** What axe finds against readers of the sheets who do not see them, as a tagged PDF carries them. */
async function barriers(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).include('.paper').analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
}

const never = /at risk of|defective|non-compliant|\bsafe\b|\bfails\b/i;

async function seenAlone(page: Page): Promise<string> {
  await page.emulateMedia({ media: 'print' });
  expect(await onPaper(page)).toEqual(['paper']);
  const [text = ''] = await page.locator('.paper').allInnerTexts();
  for (const caution of cautions) expect(text).toContain(caution.text);
  expect(text).toMatch(/Where this comes from/);
  expect(text).toMatch(/\b[0-9a-f]{64}\b/);
  expect(text).not.toMatch(never);
  return text;
}

describe('the dossier of a building', () => {
  test('prints alone, with reason, walls, cautions and provenance, on two pages or three', async () => {
    const page = await opened('#/rank?b=0&open=1', { colorScheme: 'dark' });
    const reason = await page.locator('.reason-large').textContent({ timeout: 60_000 });
    await laidOut(page, /^Dossier/);
    expect(await page.locator('.paper').isVisible()).toBe(false);
    const text = await seenAlone(page);
    expect(text).toContain(reason);
    expect(text).toMatch(/rank \d+ of \d+/);
    const [title, mark, foot] = await margins(page);
    expect(title).toContain('dossier');
    expect(mark).toContain(inventedMark);
    expect(foot).toMatch(/method .*as of .*Rain: .*Files: /s);
    const walls = await page.locator('.paper .wall-lines').count();
    expect(walls).toBeGreaterThan(0);
    expect(await page.locator('.paper .paper-map').count()).toBe(1);
    expect(await barriers(page)).toEqual([]);
    const count = await pages(page, 'Letter');
    expect(count).toBeGreaterThanOrEqual(2);
    expect(count).toBeLessThanOrEqual(3);
    // Printed once, it is taken away, and the page is as it was.
    await page.emulateMedia({ media: 'screen' });
    expect(await page.locator('.paper').count()).toBe(0);
    expect(await margins(page)).toEqual(['', '', '']);
    expect(await page.title()).toBe('Rank · Rainledger');
  });

  test('is black on white whatever the screen wears, and its worst wall stands first', async () => {
    const page = await opened('#/rank?b=3&open=1&sheet=dark');
    await page.locator('.reason-large').waitFor({ timeout: 60_000 });
    await laidOut(page, /^Dossier/);
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    const [ink, paper] = await page.evaluate(() => [
      getComputedStyle(document.querySelector('.paper h1')!).color,
      getComputedStyle(document.documentElement).backgroundColor,
    ]);
    expect(ink).toBe('rgb(0, 0, 0)');
    expect(paper).toBe('rgb(255, 255, 255)');
    const indexes = await page.locator('.paper .wall-lines td:nth-child(6) b').allInnerTexts();
    const numbers = indexes.map(Number);
    expect(numbers).toEqual(numbers.toSorted((a, b) => b - a));
  });
});

describe('the report on the portfolio', () => {
  test('prints counts, map, charts, ranking, questions, method, cautions and provenance', async () => {
    const page = await opened();
    await page.locator('tbody tr.row .building-name').first().waitFor({ timeout: 60_000 });
    const reasons = await page.locator('tbody tr.row .reason').allInnerTexts();
    await laidOut(page, /^Report/);
    const text = await seenAlone(page);
    for (const heading of [
      'Buildings by tier',
      'Buildings by index',
      'Tiers by region',
      'Cladding by the years it was put up',
      'Records worth chasing',
      'Wall area by tier',
      'How the index comes about',
    ])
      expect(text).toContain(heading);
    expect(text).toContain(reasons[0]);
    expect(await page.locator('.paper tbody.ranked').count()).toBe(50);
    expect(await page.locator('.paper .paper-map .mark').count()).toBeGreaterThan(5);
    expect((await margins(page))[1]).toContain(inventedMark);
    expect(await barriers(page)).toEqual([]);
    const count = await pages(page, 'A4');
    expect(count).toBeGreaterThanOrEqual(4);
    expect(count).toBeLessThanOrEqual(10);
  });

  test('is about the buildings shown, and says which, in the units in use', async () => {
    const page = await opened('#/rank?tier=First+look&units=american');
    await page.locator('tbody tr.row .building-name').first().waitFor({ timeout: 60_000 });
    await laidOut(page, /^Report/);
    const text = await seenAlone(page);
    const [, shown, all] = text.match(/([\d,]+) of ([\d,]+) buildings, in the tier First look/)!;
    expect(Number(shown)).toBeLessThan(Number(all));
    expect(await page.locator('.paper tbody.ranked').count()).toBe(Math.min(100, Number(shown)));
    expect(text).toMatch(/gal\/ft²/);
    expect(text).not.toMatch(/L\/m² yr/);
    expect(await page.locator('.paper .ranked .tier-mark').count()).toBe(Number(shown));
  });
});
