import csv from '../../data/regions.csv?raw';
import { csvTable } from '../csv-table.ts';
import { alternatives, fold, remembering } from './fold.ts';
import { shortestRun, turnedTo } from './longitudes.ts';

export type Country = 'US' | 'CA';

/** A bounding box in degrees WGS 84, longitudes in −180 … 180: one whose west is greater than its east crosses 180°. */
export interface Box {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

/** A US state, the District of Columbia, Puerto Rico, or a Canadian province or territory. */
export interface Region extends Box {
  readonly code: string;
  readonly name: string;
  readonly country: Country;
  /** Whether any part of it may lie in a marine climate (judgement, data/regions.csv). */
  readonly marine_possible: 'yes' | 'no';
}

interface Named {
  readonly region: Region;
  readonly words: readonly string[];
}

const named: readonly Named[] = csvTable(csv).map((row) => ({
  region: {
    code: row.code!,
    name: row.name!,
    country: row.country as Country,
    west: Number(row.west),
    south: Number(row.south),
    east: Number(row.east),
    north: Number(row.north),
    marine_possible: row.marine_possible === 'yes' ? 'yes' : 'no',
  },
  words: [row.code!, row.name!, ...alternatives(row.also!)],
}));

/** Every region, in the order of data/regions.csv. */
export const regions: readonly Region[] = named.map(({ region }) => region);

const byWord = new Map(
  named.flatMap(({ region, words }) => words.map((word) => [fold(word), region] as const)),
);

/** `US-WA` and `WA, USA` name the region as `WA` does. */
const withoutCountry = (folded: string): string =>
  folded.replace(/^(us|ca) (?=..$)/, '').replace(/ (usa?|canada|united states)$/, '');

const lookUp = remembering((text: string): Region | null => {
  const folded = fold(text);
  return byWord.get(folded) ?? byWord.get(withoutCountry(folded)) ?? null;
});

/** The region a name or abbreviation stands for, in any spelling of case, accents and full stops; else null. */
export const findRegion = (text: string | null): Region | null => (text ? lookUp(text) : null);

/** Around all of them; no region is as wide as what lies outside its country. */
function union(boxes: readonly Box[]): Box {
  const run = shortestRun(Float64Array.from(boxes.flatMap(({ west, east }) => [west, east])))!;
  return {
    west: run.west,
    south: Math.min(...boxes.map((box) => box.south)),
    east: turnedTo(0, run.east),
    north: Math.max(...boxes.map((box) => box.north)),
  };
}

/** The box around all regions of a country. */
export const countryBox: Readonly<Record<Country, Box>> = {
  US: union(regions.filter((region) => region.country === 'US')),
  CA: union(regions.filter((region) => region.country === 'CA')),
};
