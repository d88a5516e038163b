import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { cautions } from '../../analysis/export/about.ts';
import { buildingColumns, wallColumns } from '../../analysis/read/schema.ts';
import { remarksCsv } from '../../dashboard/parts/table-text.ts';
import { guessRole, nothingPicked, place } from '../../dashboard/sources/guess-role.ts';
import { blankFile, contractColumns, headings } from '../../dashboard/sources/headings.ts';
import { allRemarks, remarksMatching } from '../../dashboard/sources/remarks.ts';

const remark = (row: number, code: string) => ({
  file: 'list.csv',
  row,
  column: 'year_built',
  value: '20O4',
  code,
  message: 'Not a year; write four digits.',
});

const report = {
  file: 'list.csv',
  role: 'buildings',
  rowsRead: 9,
  accepted: 7,
  setAside: [remark(8, 'repeat-id'), remark(3, 'no-place')],
  noted: [remark(5, 'year')],
  unknownColumns: [],
} as const;

describe('headings understood', () => {
  it('are those the reader reads, in the same order', () => {
    const read = (columns: typeof buildingColumns) =>
      columns.filter((column) => !column.derived).map((column) => column.name);
    expect(contractColumns('buildings')).toEqual(read(buildingColumns));
    expect(contractColumns('walls')).toEqual(read(wallColumns));
  });

  it('each have one line of meaning', () => {
    for (const heading of headings) expect(heading.meaning, heading.column).toMatch(/\S.*\.$/);
  });

  it('a blank file has every heading and no row', () => {
    const { data } = Papa.parse<string[]>(blankFile('walls'), { skipEmptyLines: true });
    expect(data).toEqual([contractColumns('walls')]);
  });
});

describe('dropped files', () => {
  const file = (name: string) => new File([''], name);

  it('go where their names say', () => {
    expect(guessRole('North walls 2024.csv')).toBe('walls');
    expect(guessRole('precip.csv')).toBe('rain');
    expect(guessRole('Schedule of locations.csv')).toBe('buildings');
    expect(guessRole('Gauges 1991-2020 normals.csv')).toBe('stations');
    expect(guessRole('weather station hourly.csv')).toBe('weather');
    expect(guessRole('airfield.csv')).toBe('weather');
    expect(guessRole('windows by building.csv')).toBe('buildings');
    expect(guessRole('export.csv')).toBeNull();
  });

  it('whose names say nothing fill the first free places', () => {
    const picked = place(nothingPicked, [file('walls.csv'), file('export.csv')]);
    expect([picked.buildings?.name, picked.walls?.name, picked.rain]).toEqual([
      'export.csv',
      'walls.csv',
      null,
    ]);
  });
});

describe('remarks', () => {
  it('stand in the order of rows, each with what was done', () => {
    expect(allRemarks([report]).map((r) => [r.row, r.outcome])).toEqual([
      [3, 'set aside'],
      [5, 'taken as no record'],
      [8, 'set aside'],
    ]);
  });

  it('are found by any of their words, whatever the case', () => {
    const all = allRemarks([report]);
    expect(remarksMatching(all, 'any', 'FOUR DIGITS')).toHaveLength(3);
    expect(remarksMatching(all, 'set aside', '')).toHaveLength(2);
    expect(remarksMatching(all, 'any', 'nothing like it')).toHaveLength(0);
  });

  it('as a file read back as they were (RFC 4180), and no cell starts a formula', () => {
    const odd = {
      ...remark(2, 'x'),
      value: '=1+1',
      message: 'Says "no", and\nmore.',
      outcome: 'set aside',
    } as const;
    const { data } = Papa.parse<string[]>(remarksCsv([odd]), { skipEmptyLines: true });
    expect(data[0]).toEqual(['file', 'row', 'column', 'value', 'outcome', 'reason']);
    expect(data[1]).toEqual(['list.csv', '2', 'year_built', "'=1+1", 'set aside', odd.message]);
  });
});

describe('the words of the page', () => {
  const texts = () => [
    ...cautions.map((caution) => `${caution.short} ${caution.text}`),
    ...headings.map((heading) => heading.meaning),
    readFileSync('dashboard/method/steps.ts', 'utf8'),
  ];

  it('never say that a wall is or is not sound by the ranking', () => {
    for (const text of texts())
      expect(text).not.toMatch(
        /\bat risk of\b|\bdefective\b|\bnon-compliant\b|\bsafe\b|\bfails\b/i,
      );
  });

  it('the cautions cover what the method asks them to cover', () => {
    const all = texts().join(' ').toLowerCase();
    for (const word of [
      'clearance',
      'asbestos',
      '1978',
      'silica',
      'structural engineer',
      'warranties',
      'written notice',
      'local codes',
      'pricing',
      'moisture-meter',
      'kick-outs',
    ])
      expect(all, word).toContain(word);
  });
});
