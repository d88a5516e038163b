import { beforeAll, describe, expect, test } from 'vitest';
import { decimalText, shortFloat } from '../../analysis/read/parquet/cells.ts';
import { type Exports, exportsOf } from './duck-tables.ts';
import { refusal, sourceOf } from './sources.ts';
import { squared, tableOf, twinOf } from './tables.ts';

/** Columns of every plain kind, nulls among them; a quarter of the texts repeat, so that they are written by dictionary. */
const kinds = `SELECT
  'B-' || i AS building_id,
  CASE WHEN i % 4 = 0 THEN NULL ELSE 'Résidence ' || (i % 7) END AS name,
  (i * 123456)::INTEGER AS whole,
  9007199254740993 + i AS long,
  (18446744073709551615 - i)::UBIGINT AS unsigned,
  (i / 8.0)::DOUBLE AS fraction,
  (47.61 + i / 100.0)::FLOAT AS short_fraction,
  (i * 12345.67 - 99)::DECIMAL(12, 2) AS money,
  (i::HUGEINT * 12345678901234567890 - 1)::DECIMAL(38, 5) AS large_money,
  i % 3 = 0 AS flag,
  DATE '1899-12-25' + i::INTEGER * 37 AS day,
  TIMESTAMP '2026-07-01 14:30:15' + INTERVAL (i) MINUTE AS moment,
  TIME '08:15:30' AS opens,
  NULL::VARCHAR AS nothing
FROM range(2500) t(i)`;

/** Moments as the reader writes them, for the twin. */
const asWritten = `SELECT * REPLACE (strftime(moment, '%Y-%m-%dT%H:%M:%S') AS moment) FROM (${kinds})`;

let files: Exports;
beforeAll(async () => {
  files = await exportsOf({
    plain: [kinds, 'FORMAT parquet, COMPRESSION uncompressed'],
    snappy: [kinds, 'FORMAT parquet, COMPRESSION snappy, ROW_GROUP_SIZE 1000'],
    gzip: [kinds, 'FORMAT parquet, COMPRESSION gzip'],
    zstd: [kinds, 'FORMAT parquet, COMPRESSION zstd'],
    second: [kinds, 'FORMAT parquet, PARQUET_VERSION v2'],
    twin: [asWritten, 'FORMAT csv, HEADER'],
    nested: [
      `SELECT {'a': 1, 'b': [DATE '2026-07-01']} AS s, [1, NULL, 9007199254740993] AS l, MAP {'k': 2} AS m, '{"x": 1}'::JSON AS j, 'a\\x00b'::BLOB AS bytes, '12345678-1234-1234-1234-123456789abc'::UUID AS u, TIMESTAMPTZ '2026-07-01 00:00:00+00' AS t`,
      'FORMAT parquet',
    ],
    headings: ['SELECT 1 AS a, 2 AS b WHERE false', 'FORMAT parquet'],
    span: [`SELECT INTERVAL 3 DAY AS i`, 'FORMAT parquet'],
  });
});

const read = (name: string) => tableOf('list.parquet', files[name]!);

describe('a table that DuckDB writes reads like its CSV twin', () => {
  test.each(['plain', 'snappy', 'gzip', 'zstd', 'second'])('%s', async (name) => {
    const { records, rows } = await read(name);
    const expected = squared(twinOf(new TextDecoder().decode(files.twin!)));
    const numeric = (record: readonly string[]) =>
      record.map((cell, i) => (i === 5 || i === 6 ? String(Number(cell)) : cell));
    expect(records.length).toBe(2501);
    expect(records[0]).toEqual(expected[0]);
    // DuckDB writes 1.0 where the language writes 1: only the two columns of fractions are compared as numbers.
    expect(records.slice(1).map(numeric)).toEqual(expected.slice(1).map(numeric));
    expect(rows.at(-1)).toBe(2501);
  });
});

test('values inside values are JSON, bytes that are no text hexadecimal, universal time says so', async () => {
  const { records } = await read('nested');
  expect(records).toEqual([
    ['s', 'l', 'm', 'j', 'bytes', 'u', 't'],
    [
      '{"a":1,"b":["2026-07-01"]}',
      '[1,null,"9007199254740993"]',
      '{"k":2}',
      '{"x": 1}',
      'a\0b',
      '12345678-1234-1234-1234-123456789abc',
      '2026-07-01T00:00:00Z',
    ],
  ]);
});

test('a table without rows has its headings', async () => {
  expect((await read('headings')).records).toEqual([['a', 'b']]);
});

test.each([
  [123n, 0, '123'],
  [123n, 2, '1.23'],
  [-5n, 3, '-0.005'],
  [12n, -2, '1200'],
] as const)('the digits %d with %d after the point are %s', (digits, scale, text) => {
  expect(decimalText(digits, scale)).toBe(text);
});

test('a float of 32 bits is written as short as it was meant', () => {
  for (const value of [47.61, 0.1, -122.33, 1e-20, 16_777_217, 3.4e38]) {
    expect(Math.fround(shortFloat(Math.fround(value)))).toBe(Math.fround(value));
  }
  expect(shortFloat(Math.fround(47.61))).toBe(47.61);
});

describe('a file is refused in words', () => {
  const said = (content: Uint8Array) => refusal(tableOf('list.parquet', content));
  const damaged =
    'list.parquet cannot be read as Parquet: it is damaged, or holds a kind of column that is not supported. Write it again, or save it as CSV.';

  test('cut short, anywhere', async () => {
    for (const length of [4, 11, 100, files.plain!.length - 1]) {
      expect(await said(files.plain!.slice(0, length))).toBe(
        'list.parquet is a Parquet file without its end: it was cut short. Copy it again.',
      );
    }
  });

  test('its middle is missing', async () => {
    const { plain } = files;
    const joined = Buffer.concat([plain!.subarray(0, 200), plain!.subarray(-4000)]);
    expect(await said(new Uint8Array(joined))).toBe(damaged);
  });

  test('a footer longer than the file', async () => {
    const content = files.plain!.slice();
    content.set([255, 255, 255, 127], content.length - 8);
    expect(await said(content)).toBe(damaged);
  });

  test('encrypted', async () => {
    const content = files.headings!.slice();
    content.set([0x45], content.length - 1);
    expect(await said(content)).toMatch(/^list\.parquet is encrypted\./);
  });

  test('spans of time are no kind of column that is read', async () => {
    expect(await said(files.span!)).toBe(damaged);
  });

  test('an error of the source itself comes through as it is', async () => {
    const { recordBatches } = await import('../../analysis/read/records.ts');
    const cause = new Error('the disk was removed');
    const whole = sourceOf('list.parquet', files.plain!);
    const source: typeof whole = {
      ...whole,
      slice: (from, to) => (to - from > 5000 ? Promise.reject(cause) : whole.slice(from, to)),
    };
    const reading = (async () => {
      for await (const _ of recordBatches(source));
    })();
    await expect(reading).rejects.toBe(cause);
  });
});
