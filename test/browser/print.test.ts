import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { watchedVisits } from './watched.ts';

const opened = watchedVisits();

/** A view as a printer has it: the width of a sheet between its margins, and the styles of print. */
async function printed(fragment: string, ready: string): Promise<Page> {
  const page = await opened(fragment, {
    viewport: { width: 690, height: 900 },
    colorScheme: 'dark',
  });
  await page.locator(ready).first().waitFor({ timeout: 60_000 });
  await page.emulateMedia({ media: 'print' });
  return page;
}

const views = [
  ['Rank', '#/rank?region=WA', '.ranking tbody .building-name'],
  ['Rank in columns', '#/rank?rows=columns', '.ranking tbody td'],
  ['Exposure', '#/exposure?region=WA&region=OR', '.exposure-pivot tfoot'],
  ['Sources', '#/sources', '.remark-scroll tbody tr'],
  ['Settings', '#/settings', '.setting'],
  ['Method', '#/method', '.steps'],
] as const;

describe.each(views)('%s on paper', (_, fragment, ready) => {
  test('is ink on white under its head, without controls, and nothing is cut off', async () => {
    const page = await printed(fragment, ready);
    expect(await page.getByRole('heading', { name: 'Rainledger' }).isVisible()).toBe(true);
    const paint = await page.evaluate(() => {
      const { color, backgroundColor } = getComputedStyle(document.documentElement);
      return { color, backgroundColor };
    });
    expect(paint).toEqual({ color: 'rgb(0, 0, 0)', backgroundColor: 'rgb(255, 255, 255)' });
    expect(await shownControls(page)).toEqual([]);
    expect(await cutOff(page)).toEqual([]);
  });
});

/** Controls that print would show. Names and figures that are a way to something else are content. */
const shownControls = (page: Page): Promise<string[]> =>
  page
    .locator(
      'select, input[type=range], input[type=search], input[type=file], nav, .plain-button, .push-button',
    )
    .evaluateAll((found) =>
      found
        .filter((one) => one.getClientRects().length > 0 && !one.closest('th'))
        .map((one) => one.outerHTML.slice(0, 120)),
    );

/** Boxes that scroll or hide a part of what is in them. */
const cutOff = (page: Page): Promise<string[]> =>
  page.locator('main *:not(svg *)').evaluateAll((found) =>
    found
      .filter((one) => {
        const { overflowX, overflowY, clip, clipPath } = getComputedStyle(one);
        const hides = [overflowX, overflowY].some((flow) => flow !== 'visible');
        const unseen = clip !== 'auto' || clipPath !== 'none';
        const more =
          one.scrollHeight > one.clientHeight + 2 || one.scrollWidth > one.clientWidth + 2;
        return hides && more && !unseen && one.clientHeight > 2 && one.tagName !== 'INPUT';
      })
      .map((one) => one.outerHTML.slice(0, 120)),
  );

describe('Rank on paper', () => {
  test('says its filter, its caution, and by its own name which button prints the whole list', async () => {
    const page = await opened('#/rank?region=WA');
    await page.locator('.ranking tbody .building-name').first().waitFor({ timeout: 60_000 });
    const report = await page.locator('.exports button').first().textContent();
    await page.emulateMedia({ media: 'print' });
    expect(report?.trim()).toMatch(/^Report/);
    const note = page.locator('.print-note');
    expect(await note.isVisible()).toBe(true);
    expect(await note.textContent()).toContain(`“${report?.trim()}”`);
    const sentence = page.locator('.sentence');
    expect(await sentence.isVisible()).toBe(true);
    expect((await sentence.textContent())?.replace(/\s+/g, ' ')).toContain('in the region WA');
    expect(await page.getByText('Screening, not diagnosis.').first().isVisible()).toBe(true);
  });
});

describe('Exposure on paper', () => {
  test('names the buildings in the middle of clusters and on the referral list', async () => {
    const page = await printed('#/exposure?region=WA', '.exposure-referral tbody .building-place');
    for (const table of ['.exposure-clusters', '.exposure-referral']) {
      const names = page.locator(`${table} tbody th button`);
      await expect.poll(() => names.first().textContent()).toMatch(/\w{3}/);
      for (const name of await names.all()) expect(await name.isVisible()).toBe(true);
    }
  });
});
