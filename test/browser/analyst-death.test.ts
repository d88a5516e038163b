import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { launch } from './chromium.ts';
import { serveWorkspaceProbe } from './workspace-probe/serve.ts';

let browser: Browser;
let server: Awaited<ReturnType<typeof serveWorkspaceProbe>>;

beforeAll(async () => {
  server = await serveWorkspaceProbe();
  browser = await launch();
});
afterEach(async () => {
  await Promise.all(browser.contexts().map((context) => context.close()));
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

async function probe(before: (page: Page) => Promise<unknown> = async () => {}) {
  const page = await (await browser.newContext()).newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  await before(page);
  const response = await page.goto(server.origin);
  expect(response?.headers()['content-security-policy']).toContain("worker-src 'self'");
  await page.waitForFunction(() => window.connect);
  await page.evaluate(async () => {
    window.analyst = await window.connect();
    window.analyst.onRestart((message) => window.heard.push(['restart', message]));
    window.analyst.onTrouble((message) => window.heard.push(['trouble', message]));
  });
  return { page, errors };
}

/** Opens the invented example, as the page does after a restart, and answers how many buildings it has. */
const openDemo = (page: Page): Promise<number> =>
  page.evaluate(async () => {
    await window.analyst.open(await window.demo());
    return (await window.analyst.frame()).n;
  });

/** Ends the worker from inside without an event, while a question is pending; answers how that was rejected. */
async function killWhileAsked(page: Page, script: string): Promise<string> {
  const asked = page.evaluate(() =>
    window.analyst.rescore({}).then(
      () => 'answered',
      (cause: Error) => `${cause.name}: ${cause.message}`,
    ),
  );
  const worker = page.workers().find((each) => each.url().includes(script));
  await worker!.evaluate(() => self.close()).catch(() => {});
  return asked;
}

const restarted = (page: Page) =>
  page.waitForFunction(() => window.heard.some((said) => (said as string[])[0] === 'restart'));

describe('a thread of the analysis that dies', () => {
  test.each(['analyst.worker', 'engine-entry'])(
    'without a word (%s) is noticed, what was asked is rejected by name, and the next question is answered',
    async (script) => {
      const { page, errors } = await probe();
      const n = await openDemo(page);
      const outcome = await killWhileAsked(page, script);
      expect(outcome).toBe(
        'EngineStopped: The analysis stopped and is starting again. Nothing that you gave is lost.',
      );
      await restarted(page);
      expect(await openDemo(page)).toBe(n);
      expect(page.workers()).toHaveLength(2);
      expect(errors).toEqual([]);
    },
  );

  test('while nothing is asked is noticed and started anew all the same', async () => {
    const { page } = await probe();
    const n = await openDemo(page);
    const engine = page.workers().find((each) => each.url().includes('engine-entry'));
    await engine!.evaluate(() => self.close()).catch(() => {});
    await restarted(page);
    expect(await openDemo(page)).toBe(n);
  });

  test('three times in two minutes is not started again, and the sentence says what to do', async () => {
    const { page } = await probe();
    for (let i = 0; i < 3; i++) {
      await openDemo(page);
      await page.evaluate(() => window.heard.splice(0));
      const outcome = await killWhileAsked(page, 'engine-entry');
      if (i < 2) await restarted(page);
      else
        expect(outcome).toContain('EngineStopped: The analysis stopped and could not be started');
    }
    const said = await page.evaluate(() => window.heard);
    expect(said).toEqual([['trouble', expect.stringContaining('load the page again')]]);
    const later = await page.evaluate(() => window.analyst.frame().catch((e: Error) => e.name));
    expect(later).toBe('EngineStopped');
    await page.evaluate(() => window.analyst.restart());
    await restarted(page);
    expect(await openDemo(page)).toBeGreaterThan(0);
  });
});

test('a start that hangs is tried once more after half a minute, then told', async () => {
  const { page } = await probe(async (page) => {
    await page.clock.install();
    await page.context().route('**/*.wasm', () => {});
  });
  const asked = page.evaluate(() => window.analyst.frame().catch((e: Error) => e.message));
  await page.clock.fastForward(31_000);
  expect(await asked).toContain('is starting again');
  await page.clock.fastForward(31_000);
  expect(await page.evaluate(() => window.heard)).toEqual([
    ['trouble', expect.stringContaining('it did not start within half a minute')],
  ]);
});
