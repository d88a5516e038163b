import { readDegrees } from './degrees.ts';
import { longestNumber, readNumber } from './number-text.ts';
import type { ColumnRule, NumberKind, TextKind } from './schema.ts';
import { wordReader } from './vocabulary.ts';

/** What the reading of a cell depends on besides its text. */
export interface Reading {
  /** Year the analysis speaks for. */
  readonly asOf: number;
  /** Whether a comma may stand before decimals: in files separated by semicolons. */
  readonly decimalComma: boolean;
}

/** Trimmed, not blank text to a number; NaN when it cannot be read. */
export type NumberReader = (text: string) => number;
/** Trimmed, not blank text to the text kept; null when it cannot be read. */
export type TextReader = (text: string) => string | null;

const blanks: ReadonlySet<string> = new Set(
  '|-|--|?|n/a|na|none given|unknown|unk|tbd|not known|null|#n/a'.split('|'),
);
const longestBlank = Math.max(...[...blanks].map((blank) => blank.length));

const firstCharacters: ReadonlySet<number> = new Set(
  [...blanks].flatMap((blank) => [blank.charCodeAt(0), blank.toUpperCase().charCodeAt(0)]),
);

/**
 * Whether a trimmed cell says that there is no record. `none` does not: it is a value of some columns.
 * Asked of every cell, so most are let go by their length or first character.
 */
export const isBlank = (text: string): boolean =>
  text === '' ||
  (text.length <= longestBlank &&
    firstCharacters.has(text.charCodeAt(0)) &&
    blanks.has(text.toLowerCase()));

const stripping =
  (mark: RegExp) =>
  ({ decimalComma }: Reading): NumberReader =>
  (text) => {
    const value = readNumber(text, decimalComma);
    if (!Number.isNaN(value) || text.length > longestNumber) return value;
    return readNumber(text.replace(mark, ''), decimalComma);
  };

const year =
  ({ decimalComma }: Reading): NumberReader =>
  (text) => {
    const value = readNumber(text, decimalComma);
    return Number.isInteger(value) ? value : Number.NaN;
  };

/** A point of the compass or degrees from 0 to 360; north is 0. */
function azimuth(reading: Reading): NumberReader {
  const point = wordReader('azimuth_deg');
  const degrees = stripping(/\s*°$/)(reading);
  return (text) => {
    const named = point(text);
    const value = named === null ? degrees(text) : Number(named);
    return value >= 0 && value <= 360 ? value % 360 : Number.NaN;
  };
}

const numberReaders: Readonly<Record<NumberKind, (reading: Reading) => NumberReader>> = {
  number:
    ({ decimalComma }) =>
    (text) =>
      readNumber(text, decimalComma),
  money: stripping(/^(?:(?:US|CA|C|A)?[$€£¥]\s*|[A-Z]{3}\s*(?=[\d$€£])\$?\s*)/),
  percent: stripping(/\s*%$/),
  degrees:
    ({ decimalComma }) =>
    (text) =>
      readDegrees(text, decimalComma),
  year,
  azimuth,
};

/** `4A`, `Zone 4-a` and `4C (Marine)` alike; the letter may be missing. */
const zone: TextReader = (text) => {
  const parts =
    /^(?:climate )?(?:zone |cz ?)?([0-8])[ -]?([abc])?(?: \((?:moist|dry|marine)\))?$/i.exec(text);
  return parts ? `${parts[1]}${(parts[2] ?? '').toUpperCase()}` : null;
};

function currency(): TextReader {
  const named = wordReader('currency');
  return (text) => named(text) ?? (/^[a-z]{3}$/i.test(text) ? text.toUpperCase() : null);
}

const monthLengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

function daysIn(year: number, month: number): number {
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return (monthLengths[month - 1] ?? 0) + (leap && month === 2 ? 1 : 0);
}

const monthNames = 'jan feb mar apr may jun jul aug sep oct nov dec'.split(' ');
const monthNamed = (name: string): string =>
  `${monthNames.indexOf(name.slice(0, 3).toLowerCase()) + 1}`;

/** Ways of writing a day, each as [year, month, day] texts; null where the form does not fit or could be read two ways. */
const dayForms: readonly ((text: string) => readonly string[] | null)[] = [
  (text) => {
    const [, year, month = '01', day = '01'] =
      /^(\d{4})(?:-(\d{2})(?:-(\d{2})(?:[T ]\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?Z?)?)?)?$/.exec(text) ??
      [];
    return year === undefined ? null : [year, month, day];
  },
  (text) => {
    const [, a, b, year] = /^(\d{1,2})[/.-](\d{1,2})[/.-](\d{4})$/.exec(text) ?? [];
    if (year === undefined) return null;
    // 3/4/2020 is March to some and April to others: only what cannot be either is read.
    if (Number(a) > 12) return [year, b!, a!];
    return Number(b) > 12 || a === b ? [year, a!, b!] : null;
  },
  (text) => {
    const [, day, name, year] = /^(\d{1,2})[ -]([a-z]{3,9})\.?,?[ -](\d{4})$/i.exec(text) ?? [];
    return year === undefined ? null : [year, monthNamed(name!), day!];
  },
  (text) => {
    const [, name, day, year] = /^([a-z]{3,9})\.? (\d{1,2}),? (\d{4})$/i.exec(text) ?? [];
    return year === undefined ? null : [year, monthNamed(name!), day!];
  },
];

/**
 * A date as yyyy-mm-dd, no later than the year of the analysis. A year or a month alone stands for its first day, so
 * that of two records of one year the fuller date counts as the newer; a time of day is left out.
 */
const date =
  ({ asOf }: Reading): TextReader =>
  (text) => {
    if (text.length > 40) return null;
    const [year, month, day] = dayForms.map((form) => form(text)).find((parts) => parts) ?? [];
    if (year === undefined) return null;
    const inCalendar = Number(day) >= 1 && Number(day) <= daysIn(Number(year), Number(month));
    if (!inCalendar || Number(year) < 1600 || Number(year) > asOf) return null;
    return `${year}-${month!.padStart(2, '0')}-${day!.padStart(2, '0')}`;
  };

const textReaders: Readonly<Record<TextKind, (column: string, reading: Reading) => TextReader>> = {
  text: () => (text) => text,
  vocabulary: (column) => wordReader(column),
  yes_no: () => wordReader('yes_no'),
  zone: () => zone,
  currency,
  date: (_, reading) => date(reading),
};

export const numberReader = (kind: NumberKind, reading: Reading): NumberReader =>
  numberReaders[kind](reading);

export const textReader = (rule: ColumnRule & { kind: TextKind }, reading: Reading): TextReader =>
  textReaders[rule.kind](rule.name, reading);
