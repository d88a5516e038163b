import quantitiesText from '../../data/grid/quantities.csv?raw';
import unitsText from '../../data/grid/units.csv?raw';
import { csvTable } from '../csv-table.ts';

/** What a grid may hold: precipitation in mm a year, mean wind in m/s, mean temperature in °C. */
export type GridQuantity = 'rain' | 'wind' | 'temperature';

/** A unit of data/grid/units.csv: (value + add) × factor is in the unit of the quantity, per `per` where one is named. */
export interface GridUnit {
  readonly quantity: GridQuantity;
  readonly unit: string;
  readonly add: number;
  readonly factor: number;
  /** Time a rate is given for; empty for an amount or a state. */
  readonly per: '' | 'month' | 'day' | 'second';
}

/** A row of data/grid/quantities.csv. */
export interface QuantityFacts {
  readonly noun: string;
  /** Unit its values are kept in. */
  readonly unit: string;
  /** Heading that decides between several, in plain spelling. */
  readonly heading: string;
  /** Names of columns and variables that speak of it, in plain spelling. */
  readonly words: RegExp;
  readonly standardNames: ReadonlySet<string>;
  /** Values beyond these are no such quantity; below `least` by up to `slack` is rounding. */
  readonly least: number;
  readonly greatest: number;
  readonly slack: number;
}

const quantityNames: readonly GridQuantity[] = ['rain', 'wind', 'temperature'];

const wordsIn = (words: string): RegExp => new RegExp(`(^| )(${words})( |$|\\(|\\[)`);

const facts = new Map(
  csvTable(quantitiesText).map((row): [string, QuantityFacts] => [
    row.quantity!,
    {
      noun: row.noun!,
      unit: row.unit!,
      heading: row.heading!,
      words: wordsIn(row.words!),
      standardNames: new Set(row.standard_names!.split('|')),
      least: Number(row.least),
      greatest: Number(row.greatest),
      slack: Number(row.slack),
    },
  ]),
);

export const factsOf = (quantity: GridQuantity): QuantityFacts => facts.get(quantity)!;

/** Spellings with their units, longest first, so that `mm/day` is not read as anything shorter. */
const spellings: readonly (readonly [string, GridUnit])[] = csvTable(unitsText)
  .flatMap((row) => {
    const unit: GridUnit = {
      quantity: row.quantity as GridQuantity,
      unit: row.unit!,
      add: Number(row.add),
      factor: Number(row.factor),
      per: row.per as GridUnit['per'],
    };
    return row.spellings!.split('|').map((s) => [s, unit] as const);
  })
  .sort(([a], [b]) => b.length - a.length);

/** Names of the units of a quantity, for sentences. */
export const unitNamesOf = (quantity: GridQuantity): readonly string[] =>
  csvTable(unitsText)
    .filter((row) => row.quantity === quantity)
    .map((row) => row.unit!);

/** Names are compared in lower case, with blanks for underscores and dots, and powers on the line: `kg m⁻² s⁻¹`. */
export const plain = (name: string): string =>
  name
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[−–]/g, '-')
    .replaceAll('**', '')
    .replace(/[_·*]|\s/g, ' ')
    .replaceAll('^', '')
    .replace(/ +/g, ' ')
    .trim();

/** The unit that words are, or that they end with; undefined where they name none of this quantity. */
export const unitIn = (quantity: GridQuantity, words: string): GridUnit | undefined =>
  spellings.find(
    ([s, u]) => u.quantity === quantity && (words === s || words.endsWith(` ${s}`)),
  )?.[1];

/** The unit written as a unit and nothing else, as in the metadata of a raster. */
export const unitWritten = (quantity: GridQuantity, text: string): GridUnit | undefined =>
  spellings.find(([s, u]) => u.quantity === quantity && plain(text) === s)?.[1];

/** The quantity a name speaks of; undefined where it is none of them, or of more than one. */
export function quantityNamed(name: string): GridQuantity | undefined {
  const named = quantityNames.filter((quantity) => factsOf(quantity).words.test(plain(name)));
  return named.length === 1 ? named[0] : undefined;
}

/** Mean length of the months, days: those of the Gregorian calendar, 97 leap years in 400. */
const monthDays = [31, 28.2425, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;
const yearDays = monthDays.reduce((sum, days) => sum + days, 0);

const secondsPerDay = 86400;

/** What one of a rate is a year, in the amount it is the rate of. */
const perYear = { '': 1, month: 12, day: yearDays, second: secondsPerDay * yearDays } as const;

/** A value of a whole year, in the unit of the quantity: (value + add) × this. */
export const yearly = ({ factor, per }: GridUnit): number => factor * perYear[per];

/** What the value of one month (0 is January) adds to the year: an amount in full, a rate by its days, a state by its share. */
export function monthly({ quantity, factor, per }: GridUnit, month: number): number {
  const days = monthDays[month]!;
  if (quantity !== 'rain') return (factor * days) / yearDays;
  return factor * { '': 1, month: 1, day: days, second: secondsPerDay * days }[per];
}
