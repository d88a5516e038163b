import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { awkward, extensionFunctions, harmless, prying } from '../engine/statements.ts';
import { launch } from './chromium.ts';
import { serveProbe } from './probe/serve.ts';

let browser: Browser;
let server: Awaited<ReturnType<typeof serveProbe>>;

beforeAll(async () => {
  server = await serveProbe();
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

async function probe() {
  const page = await browser.newPage();
  const asked: string[] = [];
  page.context().on('request', (request) => {
    if (!request.url().startsWith(server.origin) && !request.url().startsWith('data:'))
      asked.push(request.url());
  });
  await page.goto(server.origin);
  await page.waitForFunction(() => window.engine);
  return { page, asked };
}

describe('the page’s engine in Chromium', () => {
  test('refuses every prying statement and asks the network for nothing', async () => {
    const { page, asked } = await probe();
    const outcomes = await page.evaluate(async (statements) => {
      const engine = await window.engine;
      const ask = (text: string) =>
        engine.query(text).then(
          () => 'answered',
          () => 'refused',
        );
      return Promise.all(statements.map(async (text) => [text, await ask(text)]));
    }, prying);
    expect(outcomes).toEqual(prying.map((text) => [text, 'refused']));
    expect(asked).toEqual([]);
  });

  test('asks for no extension, neither to load one nor for a function of one', async () => {
    const { page, asked } = await probe();
    await page.evaluate(
      async (statements) => {
        const engine = await window.engine;
        await Promise.allSettled(statements.map((text) => engine.query(text)));
      },
      [...harmless, ...extensionFunctions],
    );
    expect(asked).toEqual([]);
  });

  test('carries numbers, texts and blanks both ways', async () => {
    const { page } = await probe();
    const plain = {
      n: awkward.n,
      amount: [1.5, null, -0.1, 1e300],
      words: awkward.cols.words,
      odd: awkward.cols['odd "name"'],
    };
    const back = await page.evaluate(async ({ n, amount, words, odd }) => {
      const engine = await window.engine;
      const numbers = Float64Array.from(amount as (number | null)[], (x) => x ?? Number.NaN);
      await engine.load('awkward', {
        n,
        cols: { amount: numbers, words: words as string[], 'odd "name"': odd as string[] },
      });
      const { cols } = await engine.query('SELECT * FROM awkward');
      const listed = Array.from(cols.amount as Float64Array, (x) => (Number.isNaN(x) ? null : x));
      return { n, amount: listed, words: cols.words, odd: cols['odd "name"'] };
    }, plain);
    expect(back).toEqual(plain);
  });

  test('stops a statement that runs when its question is withdrawn, and answers the next', async () => {
    const { page } = await probe();
    const outcome = await page.evaluate(async () => {
      const engine = await window.engine;
      const question = new AbortController();
      const long = 'SELECT sum(a.range * b.range) AS x FROM range(10000000) a, range(100000) b';
      const answer = engine.query(long, [], question.signal).then(
        () => 'answered',
        (cause: Error) => cause.name,
      );
      setTimeout(() => question.abort(), 300);
      const name = await answer;
      const { cols } = await engine.query('SELECT 42 AS x');
      return [name, (cols.x as Float64Array)[0]];
    });
    expect(outcome).toEqual(['AbortError', 42]);
  });

  test('a signal that is never raised changes nothing', async () => {
    const { page } = await probe();
    const rows = await page.evaluate(async () => {
      const engine = await window.engine;
      const { cols } = await engine.query(
        'SELECT range AS x FROM range(5000)',
        [],
        new AbortController().signal,
      );
      return Array.from(cols.x as Float64Array);
    });
    expect(rows).toEqual(Array.from({ length: 5000 }, (_, i) => i));
  });
});
