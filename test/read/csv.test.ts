import { csvParseRows } from 'd3';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { csvBatches } from '../../analysis/read/csv.ts';
import { guessDialect } from '../../analysis/read/dialect.ts';
import { lines, refusal, sourceOf, utf16 } from './sources.ts';

interface Records {
  readonly records: readonly string[][];
  readonly rows: readonly number[];
}

async function recordsOf(
  content: string | Uint8Array,
  sizes?: readonly number[],
): Promise<Records> {
  const records: string[][] = [];
  const rows: number[] = [];
  for await (const batch of csvBatches(sourceOf('a.csv', content, sizes))) {
    records.push(...batch.records.map((record) => record.map((cell) => cell.trim())));
    rows.push(...batch.rows);
  }
  return { records, rows };
}

// RFC 4180, Common Format and MIME Type for CSV Files, section 2, rules 1, 2, 5, 6 and 7.
describe('the examples of RFC 4180', () => {
  test.each([
    [
      'each record on a line',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'no line end after the last record',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'quoted fields',
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'a line break in a field',
      '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'b\r\nbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    ['a doubled quotation mark', '"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
  ])('%s', async (_, content, records) => {
    expect((await recordsOf(content)).records).toEqual(records);
  });
});

describe('records', () => {
  test('a file of several blocks reads as d3-dsv reads it, the rows numbered on', async () => {
    const cell = (i: number): string => (i % 5 === 0 ? `"Tower ""${i}"",\nwest"` : `étage ${i}`);
    const content = Array.from({ length: 40_000 }, (_, i) => `B-${i},${cell(i)},${i / 8}`).join(
      '\n',
    );
    const { records, rows } = await recordsOf(content, [100_003]);
    expect(content.length).toBeGreaterThan(3 * 262_144);
    expect(records).toEqual(csvParseRows(content));
    expect(rows).toEqual(records.map((_, i) => i + 1));
  });

  test('any well-formed file reads as d3-dsv reads it (property)', async () => {
    const cell = fc.string({ unit: fc.constantFrom('a', 'é', '7', '"', ',', '\n', '😀') });
    const table = fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1 });
    await fc.assert(
      fc.asyncProperty(table, async (rows) => {
        const content = rows
          .map((row) => row.map((text) => `"${text.replaceAll('"', '""')}"`).join(','))
          .join('\n');
        const expected = csvParseRows(content)
          .map((row) => row.map((text) => text.trim()))
          .filter((row) => row.some((text) => text !== ''));
        if (expected.length === 0) return;
        expect(guessDialect(content).delimiter).toBe(',');
        expect((await recordsOf(content)).records).toEqual(expected);
      }),
      { seed: 4180, numRuns: 300 },
    );
  });

  test('blank lines are no rows, but count in the row numbers that follow', async () => {
    const { records, rows } = await recordsOf('\n\na,b\n\n1,2\n  \n,\n3,4\n');
    expect(records).toEqual([
      ['a', 'b'],
      ['1', '2'],
      ['3', '4'],
    ]);
    expect(rows).toEqual([3, 5, 8]);
  });

  test('a record that spans lines is one row, as a spreadsheet shows it', async () => {
    const { rows } = await recordsOf('a,b\n"1\n1\n1",2\n3,4\n');
    expect(rows).toEqual([1, 2, 3]);
  });

  test.each([
    ['line feed', 'a,b\n1,2\n'],
    ['carriage return and line feed', 'a,b\r\n1,2\r\n'],
    ['carriage return alone', 'a,b\r1,2\r'],
    ['carriage return twice', 'a,b\r\r\n1,2\r\r\n'],
    ['mixed', 'a,b\r\n1,2\n'],
    ['none at the end, quoted', 'a,b\r\n1,"2"'],
    ['a carriage return at the end, quoted', 'a,b\r\n1,"2"\r'],
  ])('rows end with a %s', async (_, content) => {
    expect((await recordsOf(content)).records).toEqual([
      ['a', 'b'],
      ['1', '2'],
    ]);
  });

  test.each([
    ['UTF-8 with a mark', new TextEncoder().encode('\ufeffname,b\né😀,2\n')],
    ['UTF-16, little end first', utf16('name,b\né😀,2\n', 'little')],
    ['UTF-16, big end first', utf16('name,b\né😀,2\n', 'big')],
    ['UTF-16 without a mark', utf16('name,b\né😀,2\n', 'little').subarray(2)],
    ['UTF-16, big end first, without a mark', utf16('name,b\né😀,2\n', 'big').subarray(2)],
  ])('%s is read', async (_, content) => {
    expect((await recordsOf(content)).records).toEqual([
      ['name', 'b'],
      ['é😀', '2'],
    ]);
    expect((await recordsOf(content, [1])).records).toEqual([
      ['name', 'b'],
      ['é😀', '2'],
    ]);
  });

  test('a quotation mark inside an unquoted cell is part of it', async () => {
    expect((await recordsOf('a,b\n5" pipe,2\n')).records[1]).toEqual(['5" pipe', '2']);
  });

  test('a record of a million characters is read, a longer one is refused with its row', async () => {
    const long = (n: number): string => lines('a,b', `1,"${'x'.repeat(n)}"`, '3,4');
    expect((await recordsOf(long(900_000))).rows).toEqual([1, 2, 3]);
    expect(await refusal(recordsOf(long(1_400_000)))).toMatch(/^Row 2 of a\.csv is longer than/);
  });
});

describe('the dialect', () => {
  test.each([
    [',', 'a,b,c\n'],
    [';', 'a;b;c\n1,5;2,5;3,5'],
    ['\t', 'a\tb\tc\n'],
    ['|', 'a|b|c\n'],
    [',', 'building_id\nB 1, 2'],
    [';', '"one, two, three, four";b;c\n'],
    [';', '\n\n;;;\na;b\n'],
    [';', 'sep=;\r\na,b,c;d'],
  ])('%j separates the cells of %j', (delimiter, beginning) => {
    expect(guessDialect(beginning).delimiter).toBe(delimiter);
  });

  test('a declared delimiter is no row', async () => {
    const { records, rows } = await recordsOf('sep=;\r\na;b\r\n1;2\r\n');
    expect(records).toEqual([
      ['a', 'b'],
      ['1', '2'],
    ]);
    expect(rows).toEqual([1, 2]);
  });

  test('a carriage return ends rows only where there is no line feed outside quotation marks', () => {
    expect(guessDialect('a,b\r"1\n1",2\r').newline).toBe('\r');
    expect(guessDialect('a,b\r\n1,2').newline).toBe('\n');
    expect(guessDialect('a,b').newline).toBe('\n');
  });
});
