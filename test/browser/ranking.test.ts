import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { watchedVisits } from './watched.ts';

const opened = watchedVisits();

async function ranked(fragment = '', options: object = {}): Promise<Page> {
  const page = await opened(fragment, options);
  await page.locator('tbody .building-name').first().waitFor({ timeout: 60_000 });
  return page;
}

const shown = (page: Page) => page.locator('.sentence [role=status]').textContent();
const names = (page: Page) => page.locator('tbody .building-name').allInnerTexts();

describe('the linked views', () => {
  test('a region clicked in one filters table, sentence and address; undo and redo go back and forth', async () => {
    const page = await ranked();
    const all = await shown(page);
    const charts = page.getByRole('region', { name: 'Linked views' });
    await charts.getByRole('button', { name: /^WA/ }).first().click();
    await page.getByText('in the region WA').waitFor();
    await expect.poll(() => shown(page)).not.toBe(all);
    const filtered = await shown(page);
    await expect
      .poll(async () => (await page.locator('tbody .building-place').allInnerTexts()).join('|'))
      .toMatch(/^[^|]*WA(\|[^|]*WA)*$/);
    await expect.poll(() => page.url()).toContain('region=WA');
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => shown(page)).toBe(all);
    await page.keyboard.press('Control+Shift+Z');
    await expect.poll(() => shown(page)).toBe(filtered);
  });

  test('a range of the index set by keys leaves only buildings in it, and can be struck from the sentence', async () => {
    const page = await ranked();
    const all = await shown(page);
    const from = page.getByRole('slider', { name: /index.*from|from.*index/i }).first();
    await from.focus();
    for (let i = 0; i < 8; i += 1) await page.keyboard.press('ArrowRight');
    await expect.poll(() => page.url()).toContain('index=40');
    await expect
      .poll(async () => {
        const tiers = await page.locator('.ranking tbody .at-tier').allInnerTexts();
        return tiers.every((tier) => tier.includes('First look'));
      })
      .toBe(true);
    await page.getByRole('button', { name: /remove 40/ }).click();
    await expect.poll(() => shown(page)).toBe(all);
  });
});

describe('the weights', () => {
  test('a slider that moves ranks at once, and is scored with low and high when it rests', async () => {
    const page = await ranked();
    const before = await names(page);
    await page.locator('.weights summary').click();
    const slider = page.getByRole('slider', { name: /Rain on the wall/ });
    await slider.focus();
    await page.keyboard.press('Home');
    await expect.poll(() => names(page)).not.toEqual(before);
    await expect
      .poll(() => page.locator('.weights [role=status]').textContent(), { timeout: 30_000 })
      .toBe('');
    const scored = await names(page);
    expect(await page.locator('.ranking tbody .at-range').first().textContent()).toMatch(/\d/);
    await page.getByRole('button', { name: 'As shipped' }).click();
    await expect.poll(() => names(page), { timeout: 30_000 }).toEqual(before);
    expect(scored).not.toEqual(before);
  });
});

describe('rows in columns', () => {
  test('columns are chosen, pinned and filtered, and the address keeps them', async () => {
    const page = await ranked('#/rank?rows=columns');
    const heads = () => page.locator('.ranking thead th').allInnerTexts();
    expect((await heads()).join('|')).toContain('Rank');
    await page.locator('.column-pick summary').click();
    await page.getByRole('checkbox', { name: /^Sheathing$/ }).check();
    await page.getByRole('checkbox', { name: 'Region stays in place' }).check();
    await page.keyboard.press('Escape');
    expect((await heads()).join('|')).toContain('Sheathing');
    await expect.poll(() => page.url()).toMatch(/pinned=[^&]*region/);
    await page.locator('summary[aria-label="Filter by Region"]').click();
    await page.locator('.filter-form').getByRole('checkbox', { name: /^OR/ }).check();
    await page.getByText('in the region OR').waitFor();
    await page.keyboard.press('Escape');
    const region = (await heads()).findIndex((head) => head.startsWith('Region'));
    await expect
      .poll(async () => [
        ...new Set(
          await page.locator(`.ranking tbody td[aria-colindex="${region + 1}"]`).allInnerTexts(),
        ),
      ])
      .toEqual(['OR']);
  });

  test('a rank is gone to, and the selected row is copied with its caution', async () => {
    const page = await ranked('#/rank?rows=columns', {
      permissions: ['clipboard-read', 'clipboard-write'],
    });
    await page.getByLabel('Go to rank').fill('120');
    await page.getByRole('button', { name: 'Go', exact: true }).click();
    const selected = page.locator('.ranking tbody tr[aria-selected=true]');
    await expect.poll(() => selected.count()).toBe(1);
    await expect.poll(() => selected.locator('td').first().textContent()).toBe('120');
    await page.getByRole('grid').focus();
    await page.keyboard.press('Control+C');
    const copied = await page.evaluate(() => navigator.clipboard.readText());
    const [head = '', row = ''] = copied.split('\n');
    expect(head.split('\t')).toContain('caution');
    expect(row.split('\t')[0]).toBe('120');
    expect(row).toContain('SCREENING-NOT-DIAGNOSIS');
  });
});
