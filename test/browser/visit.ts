import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { inject } from 'vitest';

/** A page under watch: what it asked of other origins, and what it complained of. */
export interface Visit {
  readonly page: Page;
  /** Requests that left the page's own origin: must stay empty. */
  readonly strayRequests: string[];
  readonly errors: string[];
}

const local = (url: string, origin: string): boolean =>
  url.startsWith(`${origin}/`) || url.startsWith('data:') || url.startsWith('blob:');

/**
 * Opens the page (with an optional fragment) in a context of its own. Keeping 50 MB for use offline is left to the test
 * that is about it: one of so many visits would slow the others.
 */
export async function visit(
  browser: Browser,
  fragment = '',
  options: BrowserContextOptions = {},
  origin = inject('origin'),
): Promise<Visit> {
  const context = await browser.newContext({
    viewport: { width: 1440, height: 900 },
    serviceWorkers: 'block',
    ...options,
  });
  const strayRequests: string[] = [];
  const errors: string[] = [];
  context.on('request', (request) => {
    if (!local(request.url(), origin)) strayRequests.push(request.url());
  });
  const page = await context.newPage();
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  page.on('pageerror', (error) => errors.push(error.message));
  await page.goto(`${origin}/${fragment}`);
  return { page, strayRequests, errors };
}
