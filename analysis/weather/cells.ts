import { remembering } from '../place/fold.ts';
import { isBlank } from '../read/cells.ts';
import { readNumber } from '../read/number-text.ts';
import { type Complaint, quote } from '../read/sentences.ts';
import { wordReader } from '../read/vocabulary.ts';
import type { MeasureColumn } from './headings.ts';
import { type Meaning, type Quantity, weatherConstant, wordMeanings } from './tables.ts';

/** What a cell of an hourly record says. */
export interface Reading {
  /** mm, m/s, degrees or °C; NaN where there is no measurement. A direction without a unit stays as written. */
  readonly value: number;
  readonly meaning: Meaning | 'measured' | 'unread';
  readonly complaint: Complaint | null;
}

export type WeatherCell = (text: string) => Reading;

const nothing: Reading = { value: Number.NaN, meaning: 'missing', complaint: null };

const words: Readonly<Record<Meaning, Reading>> = {
  missing: nothing,
  trace: { value: 0, meaning: 'trace', complaint: null },
  calm: { value: 0, meaning: 'calm', complaint: null },
  variable: { value: Number.NaN, meaning: 'variable', complaint: null },
};

interface Range {
  readonly least: number;
  readonly most: number;
  readonly unit: string;
}

const ranges: Readonly<Record<Quantity, Range>> = {
  rain: { least: 0, most: weatherConstant('rain_most_mm'), unit: 'mm in an hour' },
  speed: { least: 0, most: weatherConstant('speed_most_m_s'), unit: 'm/s' },
  direction: { least: 0, most: 360, unit: 'degrees' },
  temperature: {
    least: weatherConstant('temperature_least_c'),
    most: weatherConstant('temperature_most_c'),
    unit: '°C',
  },
};

const instead: Readonly<Record<Quantity, string>> = {
  rain: 'Write a number, T for a trace',
  speed: 'Write a number',
  direction: 'Write a number, a point of the compass such as NNE, or VRB',
  temperature: 'Write a number',
};

const unread = (column: string, value: string, code: string, says: string): Reading => ({
  value: Number.NaN,
  meaning: 'unread',
  complaint: { column, value, code, says },
});

const notNumber = ({ heading, quantity }: MeasureColumn, text: string): Reading =>
  unread(
    heading,
    text,
    'weather-not-number',
    `${quote(text)} under ${quote(heading)} cannot be read, so the hour counts as without it. ${instead[quantity]}, or leave the cell empty.`,
  );

function outside({ heading, quantity }: MeasureColumn, text: string): Reading {
  const { least, most, unit } = ranges[quantity];
  const says = `${quote(text)} under ${quote(heading)} lies outside ${least} to ${most} ${unit}, so the hour counts as without it. Check the number and the unit in the heading, or leave the cell empty.`;
  return unread(heading, text, 'weather-range', says);
}

/** Numbers that stand for no reading, whatever their decimals: −9999.00 as well as −9999. */
const numbersFor = (meanings: ReadonlyMap<string, Meaning>): ReadonlyMap<number, Meaning> =>
  new Map(
    [...meanings]
      .map(([word, meaning]) => [Number(word), meaning] as const)
      .filter(([number]) => !Number.isNaN(number)),
  );

function measurement(column: MeasureColumn, written: number, text: string): Reading {
  const { subtract = 0, multiply = 1, divide = 1 } = column.unit ?? {};
  const value = ((written - subtract) * multiply) / divide;
  const { least, most } = ranges[column.quantity];
  if (value < least || value > most) return outside(column, text);
  return { value, meaning: 'measured', complaint: null };
}

const pointOf = wordReader('azimuth_deg');

/** A point of the compass, as it would be written in the unit of the column. */
function compassPoint({ unit }: MeasureColumn, text: string): number {
  const point = pointOf(text);
  return point === null
    ? Number.NaN
    : (Number(point) / (unit?.multiply ?? 1)) * (unit?.divide ?? 1);
}

/**
 * Reads trimmed cells of one column: numbers in the unit of its heading, the words of data/weather/words.csv (trace,
 * calm, variable, missing), points of the compass in a column of directions. What cannot be read or cannot be true is
 * no measurement and says why.
 */
export function weatherCell(column: MeasureColumn, decimalComma: boolean): WeatherCell {
  const meanings = wordMeanings(column.quantity);
  const numbers = numbersFor(meanings);
  const read = (text: string): Reading => {
    const word = meanings.get(text.toLowerCase());
    if (word) return words[word];
    const number = readNumber(text, decimalComma);
    const meant = numbers.get(number);
    if (meant) return words[meant];
    const written =
      column.quantity === 'direction' && Number.isNaN(number) ? compassPoint(column, text) : number;
    return Number.isNaN(written) ? notNumber(column, text) : measurement(column, written, text);
  };
  const remembered = remembering(read);
  return (text) => (isBlank(text) ? nothing : remembered(text));
}
