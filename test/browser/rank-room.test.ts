import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { watchedVisits } from './watched.ts';

const opened = watchedVisits();

async function ranked(fragment = '', options: object = {}): Promise<Page> {
  const page = await opened(fragment, options);
  await page.locator('tbody td').first().waitFor({ timeout: 60_000 });
  return page;
}

/** Rows that lie wholly between the heading and the foot of the table. */
const rowsInView = (page: Page): Promise<number> =>
  page.locator('.ranking').evaluate((table) => {
    const top = table.querySelector('thead')?.getBoundingClientRect().bottom ?? 0;
    const bottom = Math.min(table.getBoundingClientRect().bottom, window.innerHeight);
    const within = [...table.querySelectorAll('tbody tr')].filter((row) => {
      const box = row.getBoundingClientRect();
      return box.top >= top - 1 && box.bottom <= bottom + 1;
    });
    return within.length;
  });

describe('the room of the ranking', () => {
  test('1440 × 900 with the charts unfolded shows six rows and does not scroll as a page', async () => {
    const page = await ranked();
    await page.locator('.chart-row:not([data-waiting])').waitFor();
    await expect.poll(() => rowsInView(page)).toBeGreaterThanOrEqual(6);
    const over = await page.evaluate(
      () => document.documentElement.scrollHeight - window.innerHeight,
    );
    expect(over).toBeLessThanOrEqual(0);
  });

  test.each([1440, 390])(
    'at %d px pinned columns leave the others two fifths of the table',
    async (width) => {
      const pinned = 'rank,tier,building_id,name,address,city,region,index';
      const page = await ranked(
        `#/rank?rows=columns&columns=${pinned},rain_mm,material&pinned=${pinned}`,
        { viewport: { width, height: 900 } },
      );
      const staying = page.locator('.plain thead .pinned');
      await expect.poll(() => staying.count()).toBeGreaterThan(1);
      const taken = async () => {
        const widths = await staying.evaluateAll((cells) =>
          cells.map((cell) => cell.getBoundingClientRect().width),
        );
        return widths.reduce((a, b) => a + b, 0);
      };
      const table = await page.locator('.ranking').evaluate((element) => element.clientWidth);
      expect(await taken()).toBeLessThanOrEqual(0.6 * table + 10);
      await page.locator('.column-pick summary').click();
      await page.getByText('take at most 60 % of the table’s width').waitFor();
      const without = page.getByText('scrolls: no room to stay');
      expect((await staying.count()) + (await without.count())).toBe(pinned.split(',').length);
    },
  );
});

describe('the panel of the weights', () => {
  test.each([1440, 1280])(
    'at %d px stays where it was unfolded while weights are tried and settle',
    async (width) => {
      const page = await ranked('', { viewport: { width, height: 900 } });
      await page.locator('.weights summary').click();
      const body = page.locator('.weights-body');
      await body.waitFor();
      const before = await body.boundingBox();
      const controls = await page.locator('.controls').evaluate((line) => line.clientHeight);
      await page.getByRole('slider', { name: /Rain on the wall/ }).focus();
      await page.keyboard.press('End');
      await page.getByText('Settings differ from what ships').waitFor({ timeout: 30_000 });
      await expect
        .poll(() => body.locator('span[role=status]').textContent(), { timeout: 30_000 })
        .toBe('');
      expect(await body.boundingBox()).toEqual(before);
      expect(await page.locator('.controls').evaluate((line) => line.clientHeight)).toBe(controls);
      await page.getByRole('button', { name: 'As shipped' }).click();
      await page.getByText('Settings differ from what ships').waitFor({ state: 'detached' });
      expect(await body.boundingBox()).toEqual(before);
    },
  );
});
