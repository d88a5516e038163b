import constantsCsv from '../../data/weather/constants.csv?raw';
import classCsv from '../../data/weather/driving_rain_class.csv?raw';
import headingsCsv from '../../data/weather/headings.csv?raw';
import obstructionCsv from '../../data/weather/obstruction.csv?raw';
import sentencesCsv from '../../data/weather/sentences.csv?raw';
import terrainCsv from '../../data/weather/terrain.csv?raw';
import unitsCsv from '../../data/weather/units.csv?raw';
import wordsCsv from '../../data/weather/words.csv?raw';
import { csvTable } from '../csv-table.ts';
import { alternatives } from '../place/fold.ts';

/** What an hourly record measures. */
export type Quantity = 'rain' | 'speed' | 'direction' | 'temperature';

/** A unit in which a quantity may be written: (written − subtract) · multiply / divide is mm, m/s, degrees or °C. */
export interface WeatherUnit {
  readonly unit: string;
  readonly subtract: number;
  readonly multiply: number;
  readonly divide: number;
}

const constants = new Map(csvTable(constantsCsv).map(({ name, value }) => [name, Number(value)]));

/** A number of data/weather/constants.csv. Throws when it is not there: a mistake in our files. */
export function weatherConstant(name: string): number {
  const value = constants.get(name);
  if (value === undefined || Number.isNaN(value)) throw new Error(`no weather constant ${name}`);
  return value;
}

interface Spelling<T> {
  readonly spelt: string;
  readonly of: T;
}

const longestFirst = <T>(spellings: Spelling<T>[]): readonly Spelling<T>[] =>
  spellings.sort((a, b) => b.spelt.length - a.spelt.length);

/** Spellings of the units of one quantity in the folded form of place/fold.ts, longest first. */
export const unitSpellings = (quantity: string): readonly Spelling<WeatherUnit>[] =>
  longestFirst(
    csvTable(unitsCsv)
      .filter((row) => row.quantity === quantity)
      .flatMap(({ unit, spellings, subtract, multiply, divide }) => {
        const of = {
          unit: unit!,
          subtract: Number(subtract),
          multiply: Number(multiply),
          divide: Number(divide),
        };
        return alternatives(spellings!).map((spelt) => ({ spelt, of }));
      }),
  );

/** A unit by its name in data/weather/units.csv. Throws when it is not there: a mistake in our files. */
export function unitNamed(quantity: string, name: string): WeatherUnit {
  const found = unitSpellings(quantity).find(({ of }) => of.unit === name);
  if (!found) throw new Error(`no unit ${name} of ${quantity}`);
  return found.of;
}

/** Folded headings of one quantity (or part of the time), with the unit that such a heading implies, if any. */
export const headingSpellings = (
  quantity: string,
): ReadonlyMap<string, { readonly unit: string }> =>
  new Map(
    csvTable(headingsCsv)
      .filter((row) => row.quantity === quantity)
      .flatMap(({ spellings, unit }) => alternatives(spellings!).map((s) => [s, { unit: unit! }])),
  );

export type Meaning = 'missing' | 'trace' | 'calm' | 'variable';

/** What a cell that is no measurement means, by its lower-case text; the words of every quantity included. */
export const wordMeanings = (quantity: Quantity): ReadonlyMap<string, Meaning> =>
  new Map(
    csvTable(wordsCsv)
      .filter((row) => row.quantity === quantity || row.quantity === 'any')
      .flatMap(({ words, meaning }) => alternatives(words!).map((w) => [w, meaning as Meaning])),
  );

export const terrainCategories = ['I', 'II', 'III', 'IV'] as const;
export type TerrainCategory = (typeof terrainCategories)[number];

/** K_R, z0 (m) and z_min (m) of a terrain category. */
export interface Terrain {
  readonly factor: number;
  readonly roughnessM: number;
  readonly leastHeightM: number;
  readonly description: string;
}

/** The row of data/weather/terrain.csv. Throws when it is not there: a mistake in our code. */
export function terrainOf(category: TerrainCategory): Terrain {
  const row = csvTable(terrainCsv).find((candidate) => candidate.category === category);
  if (!row) throw new Error(`no terrain category ${category}`);
  return {
    factor: Number(row.terrain_factor),
    roughnessM: Number(row.roughness_length_m),
    leastHeightM: Number(row.least_height_m),
    description: row.description!,
  };
}

const bound = (text: string): number => (text === '' ? Number.POSITIVE_INFINITY : Number(text));

/** O by the greatest distance (m) for which it holds, nearest first; the last holds for any. */
export const obstructionSteps: readonly { readonly upToM: number; readonly factor: number }[] =
  csvTable(obstructionCsv).map(({ up_to_m, factor }) => ({
    upToM: bound(up_to_m!),
    factor: Number(factor),
  }));

/** Classes of the annual driving-rain index, m²/s, mildest first: a class holds below one bound and up to the other. */
const drivingRainClasses: readonly {
  readonly name: string;
  readonly below: number;
  readonly upTo: number;
}[] = csvTable(classCsv).map((row) => {
  const below = bound(row.below_m2_s!);
  const upTo = bound(row.up_to_m2_s!);
  return { name: row.class!, below, upTo };
});

/** Sentences that stand beside every figure of one kind (`airfield index`, `driving-rain index`). */
export const sentencesAbout = (about: string): readonly string[] =>
  csvTable(sentencesCsv)
    .filter((row) => row.about === about)
    .map((row) => row.text!);

/** Class of a driving-rain index, m²/s: sheltered below 3, moderate from 3 to 7, severe above. */
export const drivingRainClass = (m2PerS: number): string =>
  drivingRainClasses.find(({ below, upTo }) => m2PerS < below && m2PerS <= upTo)!.name;
