import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { cautions } from '../../analysis/cautions.ts';
import { buildingColumns, wallColumns } from '../../analysis/read/schema.ts';
import { guessRole } from '../../dashboard/sources/guess-role.ts';
import { blankFile, contractColumns, headings } from '../../dashboard/sources/headings.ts';

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

  it('that end like grids are grids, of rain where the name says no more', () => {
    expect(guessRole('prism_2020.tif')).toBe('rain');
    expect(guessRole('wind_10m.nc')).toBe('wind');
    expect(guessRole('tmean.asc')).toBe('temperature');
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
