import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Columns } from '../../analysis/columns.ts';
import { openNative } from '../../analysis/engine/native.ts';
import type { Engine } from '../../analysis/engine/port.ts';
import { loadRecord } from '../../analysis/engine/record.ts';

const words = ['osb', null, "builder's board", 'añ', ''];

/** A column of every kind: ordinals, whole and broken numbers with blanks, few and many words, nothing at all. */
const record = (n: number): Columns => {
  const of = (value: (i: number) => number) => Float64Array.from({ length: n }, (_, i) => value(i));
  return {
    n,
    cols: {
      b: of((i) => i),
      storeys: of((i) => (i % 7 === 0 ? Number.NaN : i % 40)),
      area_m2: of((i) => i / 8),
      huge: of((i) => i * 1e9),
      blank: of(() => Number.NaN),
      sheathing: Array.from({ length: n }, (_, i) => words[i % words.length]!),
      name: Array.from({ length: n }, (_, i) => `House ${i}`),
      untold: new Array<null>(n).fill(null),
    },
  };
};

let engine: Engine;
beforeAll(async () => {
  engine = await openNative();
});
afterAll(() => engine.close());

// The second size is stored narrowly, in more than one part.
test.each([0, 3, 140_000])('a record of %i rows is read as it was loaded', async (n) => {
  const loaded = record(n);
  await loadRecord(engine, 'listed', loaded);
  expect(await engine.query('SELECT * FROM listed ORDER BY b')).toEqual(loaded);
});

test('a record takes the place of an earlier one with other words', async () => {
  await loadRecord(engine, 'listed', record(60_000));
  const other = {
    n: 60_000,
    cols: { word: Array.from({ length: 60_000 }, (_, i) => `w${i % 9}`) },
  };
  await loadRecord(engine, 'listed', other);
  expect(await engine.query('SELECT word, count(*) AS n FROM listed GROUP BY ALL')).toMatchObject({
    n: 9,
  });
});
