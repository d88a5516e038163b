import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { usesDecimalComma } from '../../analysis/read/decimal-comma.ts';
import { guessDialect } from '../../analysis/read/dialect.ts';
import { headingPlace } from '../../analysis/read/title-lines.ts';
import { bytesOf, lines, refusal, utf16 } from './sources.ts';
import { tableOf } from './tables.ts';

const read = (content: string | Uint8Array, sizes?: readonly number[]) =>
  tableOf('a.csv', content, sizes ? { sizes } : {});

describe('delimiters', () => {
  test.each([
    [';', 'Larkfield, Inc., as of July 1, 2026\n\na;b;c\n1,5;2;x\n2,5;3;y\n'],
    ['\t', 'id\taddress\tvalue\n1\t12 Main St, Seattle, WA\t1,250\n2\t9 Elm, Reno, NV\t2,000\n'],
    ['\t', 'a\tb\n1,5\t2,5\n3,5\t4,5\n'],
    ['|', 'a|b\nx, y|1\nz, w|2\n'],
    ['^', 'a^b^c\n1^2^3\n4^5^6\n'],
    ['~', 'a~b\n1~2\n'],
    [',', 'a^2\n4\n9\n'],
    [',', 'a,b,c\nx;y,1,2\n'],
    [',', 'note\n"one; two"\nthree; four\n'],
  ])('%j parts %j', (delimiter, beginning) => {
    expect(guessDialect(beginning).delimiter).toBe(delimiter);
  });
});

describe('a comma before decimals is told from the values', () => {
  const votes = (cells: readonly string[], otherwise = false) =>
    usesDecimalComma([cells], otherwise);

  test.each([
    [['44,66905', '-63,60069'], true],
    [['12,5 m²', 'B-1', '2026-07-01'], true],
    [['0,125'], true],
    [['1.250.000', '1 250,5'], true],
    [['47.6062', '12,5', '3.25'], false],
    [['1,250,000'], false],
    [['$1,250.50'], false],
    [['12.5', '1,250'], false],
  ])('%j: %s', (cells, comma) => {
    expect(votes(cells, !comma)).toBe(comma);
  });

  test('where every value can be read both ways, only semicolons speak for the comma', async () => {
    expect(votes(['1,234', '2.345', '56'], true)).toBe(true);
    expect((await read('a\tb\nx\t1,234\ny\t2,345\n')).decimalComma).toBe(false);
    expect((await read('a;b\nx;1,234\ny;2,345\n')).decimalComma).toBe(true);
  });

  test('one unambiguous value settles the ambiguous ones of a tab file', async () => {
    expect((await read('a\tb\nx\t1,234\ny\t2,5\n')).decimalComma).toBe(true);
    expect((await read('a\tb\nx\t1,234\ny\t2.5\n')).decimalComma).toBe(false);
  });

  test('a comma file may quote decimal commas, and a semicolon file use points', async () => {
    expect((await read('a,b\n"47,61","-122,33"\n')).decimalComma).toBe(true);
    expect((await read('a;b\n47.61;1,250\n')).decimalComma).toBe(false);
  });
});

describe('titles above the headings', () => {
  const names = ['id', 'name', 'lat', 'lon'];
  const row = ['1', 'x', '47.1', '-122'];

  test.each([
    ['one cell', [['Values as of 2026'], names, row], 1],
    ['a label and a date', [['As of', '2026-07-01'], ['By', 'A. Tern'], names, row], 2],
    ['group headings over some columns', [['', 'What', '', 'Where'], [...names, 'a', 'b'], row], 1],
    ['none', [names, row], 0],
    ['rows of numbers are no headings', [['x'], row, row], 0],
    ['nothing below', [['x'], names], 0],
    ['two columns cannot be told from a title', [['a'], ['b', 'c'], ['d', 'e']], 0],
    ['headings with gaps', [['id', '', 'lat'], row, row], 0],
  ])('%s', (_, records, place) => {
    expect(headingPlace(records)).toBe(place);
  });

  test('rows keep the numbers of the file, and a note names what was left out', async () => {
    const { records, rows, notes } = await read(
      lines('Larkfield Mutual', '', 'id,name,lat,lon', '1,x,47.1,-122', 'Total,,,'),
    );
    expect(records[0]).toEqual(['id', 'name', 'lat', 'lon']);
    expect(rows).toEqual([3, 4, 5]);
    expect(notes).toEqual([
      'The headings of a.csv stand in row 3. The row above it is left out as a title: “Larkfield Mutual”.',
    ]);
  });
});

describe('encodings', () => {
  // Unicode, Mapping of windows-1252: 0x93 “, 0x94 ”, 0xb2 ², 0xe9 é, 0x80 €.
  const smart = Uint8Array.from([
    ...bytesOf('id,note,area (m'),
    0xb2,
    ...bytesOf(')\n1,'),
    0x93,
    ...bytesOf('Caf'),
    0xe9,
    0x94,
    ...bytesOf(',2\n'),
  ]);
  const said =
    'a.csv is not UTF-8 text: it was read as Windows-1252, the encoding of older Windows programs. If accented letters look wrong, save it again as "CSV UTF-8".';

  test('Windows-1252 is read where bytes are not UTF-8, and said so, wherever the pieces end', async () => {
    for (const sizes of [[1 << 16], [1], [2], [7, 3]]) {
      const { records, notes } = await read(smart, sizes);
      expect(records).toEqual([
        ['id', 'note', 'area (m²)'],
        ['1', '“Café”', '2'],
      ]);
      expect(notes).toEqual([said]);
    }
  });

  test('the first such letter may stand far down, in any block', async () => {
    const rows = 'abcdefgh,ijklmnop\n'.repeat(40_000);
    const content = Uint8Array.from([...bytesOf(rows), 0xe9, ...bytesOf(',x\n')]);
    for (const sizes of [[1 << 16], [1 << 20], [999]]) {
      const { records, notes } = await read(content, sizes);
      expect(records.at(-1)).toEqual(['é', 'x']);
      expect(records.length).toBe(40_001);
      expect(notes).toEqual([said]);
    }
  });

  test('a consultant’s log in Windows-1252 with semicolons and decimal commas', async () => {
    const bytes = new Uint8Array(readFileSync('test/reference/owners/inspection-log.csv'));
    const { records, decimalComma, notes } = await tableOf('log.csv', bytes);
    expect(records[0]).toContain('Area (m²)');
    expect(records[1]).toContain('Résidence Tern 1');
    expect(decimalComma).toBe(true);
    expect(notes).toHaveLength(1);
    expect(records).toHaveLength(37);
  });

  test('UTF-8 with a stray byte is refused by its line, wherever the pieces end', async () => {
    const content = Uint8Array.from([...bytesOf('a,b\né,1\nx'), 0xe9, ...bytesOf(',2\n')]);
    for (const sizes of [[100], [1], [3]]) {
      expect(await refusal(read(content, sizes))).toBe(
        'Line 3 of a.csv holds bytes that are not UTF-8, while the lines above it are: parts of it were saved in another encoding, or it was cut short. Correct that line, or save the file again as "CSV UTF-8".',
      );
    }
  });

  test('UTF-16 cut in half is refused', async () => {
    const whole = utf16(lines('a,b', ...Array(300).fill('é,2')), 'little');
    expect(await refusal(read(whole.slice(0, 801)))).toMatch(/^a\.csv looks like UTF-16 text/);
  });

  test('zero bytes are no text', async () => {
    expect(await refusal(read('a,b\n1,\0\n'))).toMatch(/^a\.csv is not a text file/);
  });
});

describe('line ends', () => {
  test('of all kinds in one file', async () => {
    const content = 'a,b\r\n1,"x\r\ny"\r2,z\n3,w\r\r\n4,v\r';
    for (const sizes of [[100], [1], [5]]) {
      const { records, rows } = await read(content, sizes);
      expect(records).toEqual([
        ['a', 'b'],
        ['1', 'x\ny'],
        ['2', 'z'],
        ['3', 'w'],
        ['4', 'v'],
      ]);
      expect(rows).toEqual([1, 2, 3, 4, 5]);
    }
  });

  test('a line of two megabytes is refused', async () => {
    expect(await refusal(read(`a,b\n1,${'x'.repeat(2e6)}\n`))).toMatch(
      /^Row 2 of a\.csv is longer/,
    );
  });
});
