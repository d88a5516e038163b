import { afterAll, describe, expect, test } from 'vitest';
import { openNative } from '../../analysis/engine/native.ts';
import { EngineError, identifier } from '../../analysis/engine/port.ts';
import { awkward, prying } from './statements.ts';

const engine = await openNative();
afterAll(() => engine.close());

describe('the native engine', () => {
  test.each(prying)('refuses: %s', async (statement) => {
    await expect(engine.query(statement)).rejects.toBeInstanceOf(EngineError);
  });

  test('carries numbers, texts and blanks both ways: NaN and null come back as NaN and null', async () => {
    await engine.load('awkward', awkward);
    expect(await engine.query('SELECT * FROM awkward')).toEqual(awkward);
    expect(await engine.query('SELECT count(amount) AS n, count(words) AS w FROM awkward')).toEqual(
      {
        n: 1,
        cols: { n: Float64Array.of(3), w: Float64Array.of(3) },
      },
    );
  });

  test('carries more rows than one chunk holds', async () => {
    const n = 5000;
    const amount = Float64Array.from({ length: n }, (_, i) => i);
    const words = Array.from({ length: n }, (_, i) => (i % 7 === 0 ? null : `row ${i}`));
    await engine.load('many', { n, cols: { amount, words } });
    expect(await engine.query('SELECT * FROM many ORDER BY amount')).toEqual({
      n,
      cols: { amount, words },
    });
  });

  test('binds parameters in order', async () => {
    const { cols } = await engine.query('SELECT ? AS a, ? AS b, CAST(? AS VARCHAR) AS c', [
      1.5,
      'two',
      null,
    ]);
    expect(cols).toEqual({ a: Float64Array.of(1.5), b: ['two'], c: [null] });
  });

  test('wraps a refused statement with its text', async () => {
    await expect(engine.query('SELECT nothing FROM nowhere')).rejects.toMatchObject({
      name: 'EngineError',
      statement: 'SELECT nothing FROM nowhere',
    });
  });

  test('an aborted question is not asked', async () => {
    await expect(engine.query('SELECT 1', [], AbortSignal.abort())).rejects.toMatchObject({
      name: 'AbortError',
    });
  });
});

test('an identifier with quotes is quoted once, in one place', () => {
  expect(identifier('a "b"')).toBe('"a ""b"""');
});
