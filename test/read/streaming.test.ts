import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { texts } from '../../analysis/columns.ts';
import { readBuildings } from '../../analysis/read/buildings.ts';
import type { ByteSource } from '../../analysis/read/outcome.ts';
import { asOf, buildings, bytesOf, lines, postal, refusal, sourceOf, utf16 } from './sources.ts';

const joined = (a: Uint8Array, b: Uint8Array): Uint8Array => new Uint8Array(Buffer.concat([a, b]));

/** A file made while it is read; counts what was asked of it and whether it was closed. */
function endless(start: string, piece: Uint8Array, pieces: number) {
  const seen = { bytes: 0, closed: false };
  const source: ByteSource = {
    name: 'endless.csv',
    size: start.length + piece.length * pieces,
    slice: async (from, to) => joined(bytesOf(start), piece).slice(from, to),
    bytes: async function* () {
      try {
        yield bytesOf(start);
        for (let i = 0; i < pieces; i += 1) {
          seen.bytes += piece.length;
          yield piece;
        }
      } finally {
        seen.closed = true;
      }
    },
  };
  return { source, seen };
}

const head = 'building_id,name,latitude,longitude';
const mebibyte = new Uint8Array(1 << 20).fill(0x78);

describe('a file that is no table is left after about a megabyte', () => {
  test.each([
    ['one line of 200 MB', `${head}\nB-1,`, mebibyte, 200],
    ['a heading row of 200 MB', '', mebibyte, 200],
    ['a quotation mark never closed', `${head}\nB-1,"`, bytesOf('a,b\n'.repeat(1 << 14)), 3200],
    ['nothing but quotation marks', `${head}\nB-1,"`, bytesOf('x" '.repeat(1 << 15)), 2000],
  ])('%s', async (_, start, piece, pieces) => {
    const { source, seen } = endless(start, piece, pieces);
    const sentence = await refusal(readBuildings(source, { asOf, postal }));
    expect(sentence).toMatch(/^Row [12] of endless\.csv is longer than 1,000,000 characters/);
    expect(seen.bytes).toBeLessThan(3 << 20);
    expect(seen.closed).toBe(true);
  });
});

describe('reading can be left and followed', () => {
  test('an abort between pieces rejects with its reason and closes the source', async () => {
    const row = bytesOf(`${'B-1,x,47.6,-122.3\n'.repeat(4000)}`);
    const { source, seen } = endless(`${head}\n`, row, 1000);
    const controller = new AbortController();
    const reason = new Error('another file was chosen');
    const onProgress = (bytes: number): void => {
      if (bytes > 5 * row.length) controller.abort(reason);
    };
    const reading = readBuildings(source, { asOf, signal: controller.signal, onProgress });
    await expect(reading).rejects.toBe(reason);
    expect(seen.closed).toBe(true);
    expect(seen.bytes).toBeLessThan(10 * row.length);
  });

  test('a refusal of the heading row closes the source', async () => {
    const { source, seen } = endless('id\n', bytesOf('1\n'.repeat(1 << 19)), 100);
    expect(await refusal(readBuildings(source, { asOf }))).toMatch(
      'as a heading, and no column that could be meant',
    );
    expect(seen.closed).toBe(true);
  });

  test('progress counts every byte, in order', async () => {
    const content = lines(head, 'B-1,é,47.6,-122.3');
    const seen: number[] = [];
    await readBuildings(sourceOf('a.csv', content, [7]), { asOf, onProgress: (n) => seen.push(n) });
    expect(seen.at(-1)).toBe(bytesOf(content).length);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
  });

  test('an error of the source itself comes through as it is', async () => {
    const cause = new Error('the disk was removed');
    const source: ByteSource = {
      ...sourceOf('a.csv', head),
      bytes: async function* () {
        yield bytesOf(head);
        throw cause;
      },
    };
    await expect(readBuildings(source, { asOf })).rejects.toBe(cause);
  });
});

/** What a reading comes to: the table or the sentence of the refusal. */
const outcome = (content: Uint8Array, sizes?: readonly number[]): Promise<unknown> =>
  buildings(content, sizes).catch((error: Error) => error.message);

const cell = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom('B-1', 'B-2', '47.6', '-122.3', 'WA', 'n/a', '') },
  {
    weight: 3,
    arbitrary: fc.constantFrom('"', '""', '"a,b"', '"a\r\nb"', '"c"d', ' "e" ', 'é', '😀', 'ﬀ'),
  },
  { weight: 1, arbitrary: fc.string({ unit: 'grapheme', maxLength: 4 }) },
);
const dirty = fc
  .array(fc.tuple(fc.array(cell, { maxLength: 6 }), fc.constantFrom('\n', '\r\n', '\r', '\n\n')), {
    maxLength: 12,
  })
  .map(
    (rows) =>
      `${head}\r\nB-0,né,47.6,-122.3\r\n${rows.map(([cells, end]) => cells.join(',') + end).join('')}`,
  );

describe('the pieces in which bytes come change nothing', () => {
  const sizes = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 5 });

  test.each(['utf-8', 'utf-16'])('%s, any file, any pieces (property)', async (encoding) => {
    const encode = encoding === 'utf-8' ? bytesOf : (text: string) => utf16(text, 'big');
    await fc.assert(
      fc.asyncProperty(dirty, sizes, async (text, pieces) => {
        const whole = await outcome(encode(text));
        expect(await outcome(encode(text), pieces)).toEqual(whole);
        expect(await outcome(encode(text), [1])).toEqual(whole);
      }),
      { seed: 20_26, numRuns: 250 },
    );
  });

  test('a file cut at every single place in turn reads the same', async () => {
    const content = bytesOf(`${head}\r\nB-1,"né, ""x""\r\ny",47.6,-122.3\r\nB-2,😀,0,0\r\n`);
    const whole = await outcome(content);
    for (let at = 1; at < content.length; at += 1) {
      expect(await outcome(content, [at, content.length])).toEqual(whole);
    }
  });

  test('a file of several blocks reads the same in pieces of 1, 999 and 262,145 bytes and at once', async () => {
    const row = (i: number): string => `B-${i},"né ${i}, ""${'x'.repeat(i % 50)}""",47.6,-122.3`;
    const content = bytesOf(lines(head, ...Array.from({ length: 9000 }, (_, i) => row(i))));
    const whole = await buildings(content, [content.length]);
    expect(whole.table.n).toBe(9000);
    expect(texts(whole.table, 'name')[51]).toBe('né 51, "x"');
    for (const size of [1, 999, 262_145]) {
      expect(await buildings(content, [size])).toEqual(whole);
    }
  });
});
