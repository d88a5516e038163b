import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect } from 'vitest';
import { launch } from './chromium.ts';
import { type Visit, visit } from './visit.ts';

type Asked = Parameters<typeof visit> extends [Browser, ...infer Rest] ? Rest : never;

/**
 * A browser for the tests of a file, and the way to visit the page in it: each visit must end without a stray request
 * and without a complaint.
 */
export function watchedVisits(): (...asked: Asked) => Promise<Page> {
  let browser: Browser;
  let current: Visit[] = [];
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());
  afterEach(async () => {
    const visits = current;
    current = [];
    for (const { page } of visits) await page.context().close();
    expect(visits.flatMap(({ strayRequests }) => strayRequests)).toEqual([]);
    expect(visits.flatMap(({ errors }) => errors)).toEqual([]);
  });
  return async (...asked) => {
    const made = await visit(browser, ...asked);
    current.push(made);
    return made.page;
  };
}
