import { readFileSync } from 'node:fs';
import { strToU8, unzipSync, type Zippable, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { sheetNames } from '../../analysis/read/records.ts';
import { meaningOf, meant } from '../../analysis/read/xlsx/formats.ts';
import { openZip } from '../../analysis/read/xlsx/zip.ts';
import { bytesOf, refusal, sourceOf, utf16 } from './sources.ts';
import { fixture, squared, tableOf, twin } from './tables.ts';

const list = fixture('list.xlsx');
const read = (content: Uint8Array, sheet?: string) =>
  tableOf('list.xlsx', content, sheet === undefined ? {} : { sheet });

/** The workbook with some of its parts in other words. */
const altered = (parts: Zippable, without: readonly string[] = []): Uint8Array => {
  const all: Zippable = { ...unzipSync(list), ...parts };
  for (const name of without) delete all[name];
  return zipSync(all);
};
const withSheet = (rows: string): Uint8Array =>
  altered({
    'xl/worksheets/sheet2.xml': strToU8(
      `<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData>${rows}</x:sheetData></x:worksheet>`,
    ),
  });

describe('a workbook reads like its CSV twin', () => {
  test.each(['list.xlsx', 'list-1904.xlsx'])(
    '%s of openpyxl: dates, moments, numbers, percentages, booleans, errors, formulas, leading zeros',
    async (name) => {
      const { records } = await read(fixture(name));
      expect(squared(records)).toEqual(twin('list.csv'));
    },
  );

  test('other.xlsx of GDAL', async () => {
    const { records } = await read(fixture('other.xlsx'));
    expect(squared(records)).toEqual(twin('places.csv'));
  });

  test('an insurer’s schedule keeps its sheet’s row numbers below two title rows, and its totals row', async () => {
    const schedule = new Uint8Array(readFileSync('test/reference/owners/schedule-of-values.xlsx'));
    const { records, rows, notes } = await tableOf('schedule.xlsx', schedule);
    expect(records[0]!.slice(0, 3)).toEqual(['Loc #', 'Location Name', 'Street Address']);
    expect(rows.slice(0, 2)).toEqual([4, 5]);
    expect(records.length).toBe(62);
    expect(records.at(-1)![0]).toBe('Total');
    expect(notes).toEqual([
      'The headings of schedule.xlsx stand in row 4. The 2 rows above it are left out as a title: “Larkfield Mutual Assurance: Schedule of Values as of 1 July 2026 | Named insured: Copperline Residential Partners”.',
    ]);
  });
});

describe('sheets', () => {
  test('the first sheet that is not hidden is read, a named one instead, a hidden one by its name', async () => {
    expect(await sheetNames(sourceOf('list.xlsx', list))).toEqual(['Stock & <state>', 'Nothing']);
    expect((await read(list, 'Stock & <state>')).records[0]![0]).toBe('Ref');
    expect((await read(list, 'Lists')).records).toEqual([['yes']]);
  });

  test('other formats have none', async () => {
    expect(await sheetNames(sourceOf('a.csv', 'a,b\n1,2\n'))).toEqual([]);
    expect(await sheetNames(sourceOf('places.geojson', fixture('places.geojson')))).toEqual([]);
  });
});

describe('cells', () => {
  const cells = async (rows: string) => (await read(withSheet(rows))).records;

  // ECMA-376 part 1: 18.3.1.4 and .73 (references may be absent), 18.4.6 (readings in another script are no text),
  // 18.18.11 (types), 22.9.2.19 (letters that XML may not hold).
  test.each([
    ['<x:row><x:c><x:v>1</x:v></x:c><x:c><x:v>2</x:v></x:c></x:row>', ['1', '2']],
    ['<x:row r="7"><x:c r="C7"><x:v>1</x:v></x:c></x:row>', ['', '', '1']],
    ['<x:row><x:c t="str"><x:f>A1</x:f><x:v>a_x000A_b</x:v></x:c></x:row>', ['a\nb']],
    ['<x:row><x:c t="d"><x:v>2026-07-01T00:00:00</x:v></x:c></x:row>', ['2026-07-01']],
    ["<x:row><x:c t='e'><x:v>#DIV/0!</x:v></x:c></x:row>", ['#DIV/0!']],
    [
      '<x:row><x:c t="inlineStr"><x:is><x:r><x:t>Ter</x:t></x:r><x:r><x:t>n</x:t></x:r><x:rPh><x:t>no</x:t></x:rPh></x:is></x:c></x:row>',
      ['Tern'],
    ],
    ['<x:row><x:c t="inlineStr"><x:is><x:t><![CDATA[a<&b]]></x:t></x:is></x:c></x:row>', ['a<&b']],
    ['<!-- > --><x:row r="1" x:note="a>b"><x:c><x:v>&#49;2</x:v></x:c></x:row>', ['12']],
  ])('%s', async (rows, expected) => {
    expect(await cells(rows)).toEqual([expected]);
  });

  test('a formula whose result was never stored is empty, and the file’s note says so', async () => {
    const { records, notes } = await read(
      withSheet('<x:row r="2"><x:c><x:v>1</x:v></x:c><x:c><x:f>A2*2</x:f></x:c></x:row>'),
    );
    expect(records).toEqual([['1']]);
    expect(notes[0]).toMatch(
      /^1 cells of list\.xlsx \(the first in row 2\) hold formulas whose results/,
    );
  });
});

// ECMA-376 part 1, 18.8.30 (number formats) and 18.17.4.1 (the two calendars, and 29 February 1900).
describe('number formats', () => {
  test.each([
    [14, undefined, 'moment'],
    [20, undefined, 'time'],
    [9, undefined, 'percent'],
    [2, undefined, 'number'],
    [170, 'General', 'number'],
    [170, '#,##0.00 "days"', 'number'],
    [170, '[Red]-0.00;[Blue]0', 'number'],
    [170, '[$-409]d-mmm-yy;@', 'moment'],
    [170, '_-* #,##0\\ "kr"_-', 'number'],
    [170, '[h]:mm', 'number'],
    [170, 'h:mm AM/PM', 'time'],
    [170, 'yyyy', 'year'],
    [170, 'mmm', 'moment'],
    [170, '0.00E+00', 'number'],
    [170, '0.0%', 'percent'],
  ] as const)('%i %s is a %s', (id, code, meaning) => expect(meaningOf(id, code)).toBe(meaning));

  test.each([
    [1, false, '1900-01-01'],
    [59, false, '1900-02-28'],
    [61, false, '1900-03-01'],
    [36_526, false, '2000-01-01'],
    [0, true, '1904-01-01'],
    [35_064, true, '2000-01-01'],
    [2_958_465, false, '9999-12-31'],
    [45_000.999_999, false, '2023-03-16'],
    [-1, false, -1],
    [3e6, false, 3e6],
  ] as const)('serial %d (from 1904: %s) is %s', (serial, from1904, text) => {
    expect(meant(serial, 'moment', from1904)).toBe(text);
  });

  test('a date shown as its year alone is that year', () => {
    expect(meant(36_526, 'year', false)).toBe('2000');
  });
});

describe('a workbook is refused in words', () => {
  const said = (content: Uint8Array, sheet?: string) => refusal(read(content, sheet));
  const compound = (word: string): Uint8Array => {
    // The head of MS-CFB 2.2 and a directory entry of 2.6.1.
    const bytes = new Uint8Array(4096);
    bytes.set([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]);
    bytes.set(utf16(word, 'little').subarray(2), 1024);
    return bytes;
  };
  /** The list with its sheet unpacked, and in it a year of another century. */
  const misread = (): Uint8Array => {
    const sheet = unzipSync(list)['xl/worksheets/sheet2.xml']!;
    const stored = Buffer.from(altered({ 'xl/worksheets/sheet2.xml': [sheet, { level: 0 }] }));
    stored.set(bytesOf('1887'), stored.indexOf('1987'));
    return new Uint8Array(stored);
  };

  test.each([
    ['cut in half', list.slice(0, 3000), /list of its parts, which stands at its end, is missing/],
    ['a year changed on its way', misread(), /check sum of a part does not fit/],
    ['only a head', bytesOf('PK\x03\x04'), /damaged workbook/],
    ['an empty archive', zipSync({}), /is a ZIP archive and no workbook\. Unpack it, and choose/],
    ['a ZIP of something else', zipSync({ 'a.csv': strToU8('a,b') }), /is a ZIP archive/],
    ['an .xlsb', zipSync({ 'xl/workbook.bin': strToU8('x') }), /binary form \(\.xlsb\)/],
    ['an OpenDocument sheet', zipSync({ 'content.xml': strToU8('x') }), /OpenDocument/],
    [
      'no sheets',
      altered({ 'xl/workbook.xml': strToU8('<workbook><sheets/></workbook>') }),
      /without a sheet/,
    ],
    [
      'a missing sheet',
      altered({}, ['xl/worksheets/sheet2.xml']),
      /part xl\/worksheets\/sheet2\.xml is missing/,
    ],
    [
      'rows out of order',
      withSheet('<x:row r="3"/><x:row r="2"/>'),
      /rows of a sheet are out of order/,
    ],
    ['a row beyond the last', withSheet('<x:row r="1048577"/>'), /more than 1,048,576 rows/],
    [
      'a cell beyond the last',
      withSheet('<x:row><x:c r="XFE1"><x:v>1</x:v></x:c></x:row>'),
      /16,384 columns/,
    ],
    [
      'a text that is not there',
      withSheet('<x:row><x:c t="s"><x:v>9</x:v></x:c></x:row>'),
      /points at a text/,
    ],
    [
      'a tag that never ends',
      withSheet(`<x:row a="${'a'.repeat(1_100_000)}`),
      /tag of a sheet never ends/,
    ],
    ['locked', compound('EncryptedPackage'), /^list\.xlsx is locked with a password\. Open it/],
    [
      'an old .xls',
      compound('Workbook'),
      /^list\.xlsx is in an old office format \(such as \.xls\)/,
    ],
  ] as const)('%s', async (_, content, sentence) => {
    expect(await said(content)).toMatch(sentence);
  });

  test('a sheet that is not there, or empty, by the names of the others', async () => {
    expect(await said(list, 'Walls')).toBe(
      'list.xlsx has no sheet “Walls”. Its sheets are “Lists”, “Stock & <state>”, “Nothing”.',
    );
    expect(await said(list, 'Nothing')).toBe(
      'The sheet “Nothing” of list.xlsx is empty. Choose another sheet: “Stock & <state>”.',
    );
  });

  test('what unpacks to more than is allowed stops there, whatever the archive says of its size', async () => {
    const rows = strToU8('<x:row><x:c t="str"><x:v>x</x:v></x:c></x:row>'.repeat(400_000));
    const content = altered({ 'xl/worksheets/sheet2.xml': rows });
    expect(content.length).toBeLessThan(200_000);
    const zip = await openZip(sourceOf('list.xlsx', content), 5e6);
    let length = 0;
    const reading = (async () => {
      for await (const piece of zip.pieces('xl/worksheets/sheet2.xml')) length += piece.length;
    })();
    expect(await refusal(reading)).toBe(
      'list.xlsx unpacks to more than 5 MB. Save the sheet as CSV (UTF-8), or cut it to the rows that are needed.',
    );
    expect(length).toBeLessThanOrEqual(5e6);
  });

  test('a file of more than 100 MB is not opened', async () => {
    const large = { ...sourceOf('list.xlsx', list), size: 100e6 + 1 };
    expect(await refusal(openZip(large))).toMatch(/^list\.xlsx is larger than 100 MB\./);
  });
});
