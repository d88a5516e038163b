import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { watchedVisits } from './watched.ts';

const opened = watchedVisits();

const halfLoad = (page: Page) => page.getByLabel(/^Wetting at which the load/);
const exponent = (page: Page) => page.getByLabel(/exponent of the load w/);

async function settings(page: Page): Promise<void> {
  await page.getByRole('navigation').getByRole('link', { name: 'Settings' }).click();
  await halfLoad(page).waitFor({ timeout: 60_000 });
}

/** The page over files of its own: what is set is kept with the workspace. */
async function own(): Promise<Page> {
  const page = await opened('#/sources');
  const rows = Array.from({ length: 12 }, (_, i) => `B${i},47.6,-122.3,stucco`).join('\n');
  await page.getByLabel(/Drop your files here/).setInputFiles({
    name: 'list.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(`id,lat,lon,material\n${rows}\n`),
  });
  await page.getByRole('button', { name: 'Read these files' }).click();
  await page.getByText('Open now: your files').waitFor({ timeout: 60_000 });
  return page;
}

describe('settings as they are typed', () => {
  test('an invalid field keeps its text and says why, and holds back nothing typed after it', async () => {
    const page = await own();
    await settings(page);
    await halfLoad(page).fill('-5');
    await exponent(page).fill('2');
    await exponent(page).blur();
    await page.getByText('1 field was not taken').waitFor();
    expect(await halfLoad(page).inputValue()).toBe('-5');
    expect(await halfLoad(page).getAttribute('aria-invalid')).toBe('true');
    const why = await halfLoad(page).getAttribute('aria-describedby');
    expect(await page.locator(`[id="${why}"]`).textContent()).toContain('cannot be below zero');
    await page.getByRole('navigation').getByRole('link', { name: 'Rank', exact: true }).click();
    await page.getByText('Settings differ from what ships: 1 constant').waitFor();
    await settings(page);
    expect(await exponent(page).inputValue()).toBe('2');
  });

  test('a reload loses no value that was taken, nor the one still in its field', async () => {
    const page = await own();
    await settings(page);
    await halfLoad(page).fill('-5');
    await exponent(page).fill('2');
    await page.getByLabel(/exponent of the susceptibility/).fill('0.5');
    await page.reload();
    await exponent(page).waitFor({ timeout: 60_000 });
    await expect.poll(() => exponent(page).inputValue()).toBe('2');
    expect(await page.getByLabel(/exponent of the susceptibility/).inputValue()).toBe('0.5');
    expect(await halfLoad(page).inputValue()).toBe('100');
  });
});
