import Papa from 'papaparse';
import text from '../../data/grid/units.csv?raw';
import { Refusal } from '../read/outcome.ts';

/** A unit of rain and what one of it is in mm a year (data/grid/units.csv). */
export interface RainUnit {
  readonly unit: string;
  readonly mmPerYear: number;
}

const rows = Papa.parse(text, { header: true, skipEmptyLines: true }).data;

export const unitNames: readonly string[] = rows.map((row) => row.unit!);

/** Spellings with their units, longest first, so that `mm/day` is not read as anything shorter. */
const spellings: readonly (readonly [string, RainUnit])[] = rows
  .map((row) => ({ unit: row.unit!, mmPerYear: Number(row.mm_per_year), spelt: row.spellings! }))
  .flatMap(({ spelt, ...unit }) => spelt.split('|').map((s) => [s, unit] as const))
  .sort(([a], [b]) => b.length - a.length);

/** Headings are compared in lower case, with blanks for underscores and dots, and powers on the line: `kg m⁻² s⁻¹`. */
const plain = (heading: string): string =>
  heading
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[−–]/g, '-')
    .replace(/[_·*]|\s/g, ' ')
    .replaceAll('^', '')
    .replace(/ +/g, ' ')
    .trim();

const bare = (name: string): string => name.replace(/ *[([].*$/, '');
const bracketed = (name: string): string => /[([](.+)[)\]]$/.exec(name)?.[1]?.trim() ?? '';

const spelt = (words: string): RainUnit | undefined =>
  spellings.find(([s]) => words === s || words.endsWith(` ${s}`))?.[1];

/** The unit a heading names, in brackets or as its last words; undefined where it names none. */
export function unitOf(heading: string): RainUnit | undefined {
  const name = plain(heading);
  return spelt(bracketed(name)) ?? spelt(bare(name));
}

const longitudeNames = new Set(['longitude', 'lon', 'long', 'lng', 'x']);
const latitudeNames = new Set(['latitude', 'lat', 'y']);
const rainWords = /(^| )((rain|precip)[a-z]*|prcp|ppt|pre?|tp)( |$|\(|\[)/;

const isLongitude = (heading: string): boolean => longitudeNames.has(bare(plain(heading)));
const isLatitude = (heading: string): boolean => latitudeNames.has(bare(plain(heading)));

/** Every column that could hold rain, the likeliest kind only: named `rain_mm`; named like rain; any other column. */
export function rainHeadings(headings: readonly string[]): readonly (readonly [string, number])[] {
  const others = headings
    .map((heading, index) => [heading, index] as const)
    .filter(([heading]) => !isLongitude(heading) && !isLatitude(heading) && heading.trim() !== '');
  const exact = others.filter(([heading]) => plain(heading) === 'rain mm');
  const named = others.filter(([heading]) => rainWords.test(plain(heading)));
  return [exact, named, others].find((some) => some.length > 0) ?? [];
}

export const listed = (headings: readonly string[]): string =>
  headings.map((heading) => `“${heading}”`).join(', ');

/** Where the latitude or longitude stands; a Refusal, with what else is needed, where there is none. */
export function coordinateColumn(
  file: string,
  headings: readonly string[],
  name: 'latitude' | 'longitude',
  needs = '',
): number {
  const index = headings.findIndex(name === 'latitude' ? isLatitude : isLongitude);
  if (index >= 0) return index;
  const says = `${file} has no column named ${name}. Its columns are ${listed(headings)}.`;
  throw new Refusal(file, needs ? `${says} ${needs}` : says);
}
