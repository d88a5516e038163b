import AxeBuilder from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { views } from '../../dashboard/state/page-state.ts';
import { type Stop, stopsFrom } from './keyboard.ts';
import { watchedVisits } from './watched.ts';

const opened = watchedVisits();

async function ranked(options: object = {}): Promise<Page> {
  const page = await opened('', options);
  await firstName(page).waitFor({ timeout: 60_000 });
  return page;
}
const firstName = (page: Page) => page.locator('tbody .building-name').first();

async function show(page: Page, view: string): Promise<void> {
  const link = page.getByRole('navigation', { name: 'Views' });
  await link.getByRole('link', { name: view, exact: true }).click();
  const section = page.locator('main > section').and(page.getByLabel(view, { exact: true }));
  await section.waitFor();
  await page.waitForTimeout(500);
}

/** Unfolds what is folded, so that it is looked at too; the folds of Rank lie over one another. */
const unfold = (page: Page) =>
  page.evaluate(() => {
    for (const fold of document.querySelectorAll('main > :not(.rank) details')) {
      (fold as HTMLDetailsElement).open = true;
    }
  });

const openBuilding = async (page: Page): Promise<void> => {
  await show(page, 'Rank');
  await firstName(page).click();
  await page.getByText('Records worth chasing,').waitFor();
};

describe('axe, WCAG 2.2 A and AA', () => {
  const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
  const findings = async (page: Page): Promise<string[]> => {
    const { violations } = await new AxeBuilder({ page }).withTags(tags).analyze();
    return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
  };

  test.each([
    [1440, 'light'],
    [1440, 'dark'],
    [390, 'light'],
    [390, 'dark'],
  ] as const)(
    '%d px, %s: every view, unfolded, a building, a ledger and a term',
    async (width, colorScheme) => {
      const page = await ranked({ viewport: { width, height: 860 }, colorScheme });
      for (const view of views) {
        await show(page, view);
        await unfold(page);
        expect(await findings(page), view).toEqual([]);
      }
      await openBuilding(page);
      expect(await findings(page), 'a building').toEqual([]);
      const term = page.locator('.building .term').first();
      await term.click();
      await page.locator('.term-note:popover-open').waitFor();
      expect(await findings(page), 'a term').toEqual([]);
      await page.keyboard.press('Escape');
      await page.locator('.building button.number').first().click();
      await page
        .getByRole('dialog', { name: /^Ledger/ })
        .getByText('w^α')
        .first()
        .waitFor();
      expect(await findings(page), 'a ledger').toEqual([]);
    },
  );
});

describe('reflow (WCAG 1.4.10): nothing but data tables scrolls sideways', () => {
  test.each([
    ['320 px wide', { viewport: { width: 320, height: 640 } }],
    ['1440 × 900 at 200 %', { viewport: { width: 720, height: 450 }, deviceScaleFactor: 2 }],
  ])('%s', async (_, options) => {
    const page = await ranked(options);
    const wide = () =>
      page.evaluate(() => {
        const sideways = ({ scrollWidth, clientWidth }: Element) => scrollWidth > clientWidth + 1;
        const scrolls = (element: Element) =>
          /auto|scroll/.test(getComputedStyle(element).overflowX) && element.clientWidth > 0;
        return [document.documentElement, ...document.querySelectorAll('body *')]
          .filter((element) => element === document.documentElement || scrolls(element))
          .filter((element) => sideways(element) && !element.querySelector(':scope > table'))
          .map(({ tagName, className }) => `${tagName}.${className}`);
      });
    for (const view of views) {
      await show(page, view);
      await unfold(page);
      expect(await wide(), view).toEqual([]);
    }
    await openBuilding(page);
    expect(await wide(), 'a building').toEqual([]);
  });
});

describe('with the keyboard alone', () => {
  /** Every stop shows where the focus is, inside the window and over what else lies there. */
  const hidden = (stops: readonly Stop[]) =>
    stops.filter(({ outlined, inWindow }) => !outlined || !inWindow).map(({ name }) => name);

  test.each(views)(
    '%s: focus is seen at every stop, goes down the page, and comes round',
    async (view) => {
      const page = await ranked();
      await show(page, view);
      const stops = await stopsFrom(page);
      expect(stops.length).toBeGreaterThan(15);
      expect(hidden(stops)).toEqual([]);
      expect(stops.filter(({ afterLast }) => !afterLast).map(({ name }) => name)).toEqual([]);
      expect(
        await page
          .locator('[tabindex]')
          .evaluateAll((all) =>
            all.map((one) => (one as HTMLElement).tabIndex).filter((index) => index > 0),
          ),
      ).toEqual([]);
    },
  );

  const until = async (page: Page, name: RegExp): Promise<void> => {
    for (let i = 0; i < 150; i += 1) {
      await page.keyboard.press('Tab');
      const focused = await page.evaluate(() => {
        const element = document.activeElement as HTMLElement;
        const of = element.closest('label') ?? element;
        return element.getAttribute('aria-label') ?? of.textContent ?? '';
      });
      if (name.test(focused.trim())) return;
    }
    throw new Error(`no stop is named like ${name}`);
  };

  test('the main job: skip to the sheet, open a file, rank, open a building and a ledger, back, filter, save', async () => {
    const page = await ranked();
    await until(page, /^Skip to the sheet/);
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('MAIN');
    await page.reload();
    await firstName(page).waitFor({ timeout: 60_000 });

    await until(page, /^Sources$/);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Sources' }).waitFor();
    // Asked for before the key that opens it: the browser is told of that in its own time.
    const chooser = page.waitForEvent('filechooser', { timeout: 60_000 });
    await until(page, /^Drop your files here/);
    await page.keyboard.press('Space');
    await (await chooser).setFiles('test/reference/owners/city-buildings.csv');
    await page.locator('.held-name', { hasText: 'city-buildings' }).waitFor();
    await until(page, /^Read these files$/);
    await page.keyboard.press('Enter');
    await page.getByText('Open now: your files').waitFor({ timeout: 60_000 });
    await until(page, /^Go to the ranking$/);
    await page.keyboard.press('Enter');
    await firstName(page).waitFor({ timeout: 60_000 });

    await page.keyboard.press('Tab');
    for (let i = 0; i < 150; i += 1) {
      if (await page.evaluate(() => document.activeElement?.matches('[role=grid]'))) break;
      await page.keyboard.press('Tab');
    }
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page
      .getByRole('article', { name: 'Building' })
      .getByText('Walls, the worst first')
      .waitFor();
    await until(page, /how Index comes about/);
    await page.keyboard.press('Enter');
    const ledger = page.getByRole('dialog', { name: /^Ledger/ });
    await ledger.getByText('w^α').first().waitFor();
    expect(await ledger.evaluate((note) => note.contains(document.activeElement))).toBe(true);
    await page.keyboard.press('Escape');
    await expect.poll(() => ledger.count()).toBe(0);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toMatch(
      /how Index comes about/,
    );
    await page.keyboard.press('Escape');
    await page.getByRole('article', { name: 'Building' }).waitFor({ state: 'detached' });
    expect(await page.evaluate(() => document.activeElement?.getAttribute('role'))).toBe('grid');

    const said = page.locator('.sentence [role=status]');
    const all = await said.textContent();
    await until(page, /^(Keep watch|No flag|Next look) \d/);
    await page.keyboard.press('Enter');
    await expect.poll(() => said.textContent()).not.toBe(all);
    await until(page, /^CSV$/);
    const saved = page.waitForEvent('download');
    await page.keyboard.press('Enter');
    expect((await saved).suggestedFilename()).toMatch(/\.csv$/);
  });
});

test('each view has a title of its own and one heading of the first and second level before any other', async () => {
  const page = await ranked();
  const titles = new Set<string>();
  for (const view of views) {
    await show(page, view);
    titles.add(await page.title());
    expect(await page.title()).toContain(view);
    const levels = await page.evaluate(() =>
      [...document.querySelectorAll('h1, h2, h3, h4, h5, h6')].map(({ tagName }) =>
        Number(tagName[1]),
      ),
    );
    expect(levels[0]).toBe(1);
    const jumps = levels.filter((level, i) => i > 0 && level > levels[i - 1]! + 1);
    expect(jumps, view).toEqual([]);
  }
  expect(titles.size).toBe(views.length);
});

test('where less motion is asked for, nothing of the page or the map moves by itself', async () => {
  const page = await ranked({ reducedMotion: 'reduce' });
  const moving = () => page.evaluate(() => document.getAnimations().length);
  await page.waitForSelector('[data-drawn=yes]', { timeout: 60_000 });
  expect(await moving()).toBe(0);
  const scale = page.locator('.maplibregl-ctrl-scale');
  const before = await scale.textContent();
  await page
    .getByRole('button', { name: /nearer|zoom in|^\+$/i })
    .first()
    .click();
  // An eased zoom passes through in-between scales for 200 ms; a jump is there at the next frame.
  await page.evaluate(
    () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
  );
  const next = await scale.textContent();
  await page.waitForSelector('[data-drawn=yes]');
  expect(next).not.toBe(before);
  expect(await scale.textContent()).toBe(next);
  await page.reload();
  await page.locator('.skeleton').waitFor();
  expect(await moving()).toBe(0);
});
