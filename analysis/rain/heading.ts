import { Refusal } from '../read/outcome.ts';
import {
  factsOf,
  type GridQuantity,
  type GridUnit,
  plain,
  unitIn,
  unitNamesOf,
  yearly,
} from './quantity.ts';

/** A unit of rain and what one of it is in mm a year. */
export interface RainUnit {
  readonly unit: string;
  readonly mmPerYear: number;
}

export const unitNames: readonly string[] = unitNamesOf('rain');

const bare = (name: string): string => name.replace(/ *[([].*$/, '');
const bracketed = (name: string): string => /[([](.+)[)\]]$/.exec(name)?.[1]?.trim() ?? '';

/** The unit of a quantity that a heading names, in brackets or as its last words; undefined where it names none. */
export function unitOfHeading(quantity: GridQuantity, heading: string): GridUnit | undefined {
  const name = plain(heading);
  return unitIn(quantity, bracketed(name)) ?? unitIn(quantity, bare(name));
}

/** The unit of rain a heading names; undefined where it names none. */
export function unitOf(heading: string): RainUnit | undefined {
  const unit = unitOfHeading('rain', heading);
  return unit && { unit: unit.unit, mmPerYear: yearly(unit) };
}

const longitudeNames = new Set(['longitude', 'lon', 'long', 'lng', 'x']);
const latitudeNames = new Set(['latitude', 'lat', 'y']);

const isLongitude = (heading: string): boolean => longitudeNames.has(bare(plain(heading)));
const isLatitude = (heading: string): boolean => latitudeNames.has(bare(plain(heading)));

/** Every column that could hold the quantity, the likeliest kind only: named `rain_mm`; named like rain; any other column. */
export function valueHeadings(
  quantity: GridQuantity,
  headings: readonly string[],
): readonly (readonly [string, number])[] {
  const { heading: best, words } = factsOf(quantity);
  const others = headings
    .map((heading, index) => [heading, index] as const)
    .filter(([heading]) => !isLongitude(heading) && !isLatitude(heading) && heading.trim() !== '');
  const exact = others.filter(([heading]) => plain(heading) === best);
  const named = others.filter(([heading]) => words.test(plain(heading)));
  return [exact, named, others].find((some) => some.length > 0) ?? [];
}

export const rainHeadings = (headings: readonly string[]): readonly (readonly [string, number])[] =>
  valueHeadings('rain', headings);

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
