import type { Mend, Remark } from './outcome.ts';
import { boundOf, type ColumnRule, type Range } from './schema.ts';
import { wordsOf } from './vocabulary.ts';

/** What is said about one cell, before file and row are known. */
export interface Complaint {
  readonly column: string;
  readonly value: string;
  readonly code: string;
  /** What is wrong and what to do: the rest of a sentence that begins `Row 17 of portfolio.csv: `. */
  readonly says: string;
  /** A correction that would probably do. */
  readonly mend?: Mend;
}

const longest = 60;

/** A cell as it stands in a sentence: on one line, clipped. */
export function clip(value: string): string {
  const line = value.slice(0, 4 * longest).replace(/\s+/g, ' ');
  return line.length > longest ? `${line.slice(0, longest)}…` : line;
}

export const quote = (value: string): string => `"${clip(value)}"`;

/** Where a complaint belongs beside file and row. */
export interface Whence {
  /** The wall, in records that describe several. */
  readonly wall: string | null;
  /** The user's heading, where it is not the contract's. */
  readonly heading: string | undefined;
}

const own: Whence = { wall: null, heading: undefined };

export function remark(
  file: string,
  row: number,
  { column, value, code, says, mend }: Complaint,
  { wall, heading }: Whence = own,
): Remark {
  const where = heading === undefined ? '' : `, column ${quote(heading)}`;
  return {
    file,
    row,
    column,
    value,
    code,
    message: `Row ${row} of ${file}${where}: ${says}`,
    ...(wall === null ? {} : { wall }),
    ...(mend ? { mend } : {}),
  };
}

const leaveEmpty = 'or leave the cell empty if it is not known';

/** Why a cell of each kind could not be read, and what to write instead. */
const unread: Readonly<
  Record<ColumnRule['kind'], (rule: ColumnRule, asOf: number) => [string, string, string]>
> = {
  number: () => ['not-number', 'is not a number', 'Write a plain number such as 12.5'],
  money: () => ['not-number', 'is not an amount', 'Write a plain number such as 1250000'],
  percent: () => ['not-number', 'is not a number', 'Write a plain number such as 90'],
  degrees: () => ['not-number', 'is not a number', 'Write decimal degrees such as 47.61'],
  year: () => ['not-year', 'is not a year', 'Write four digits such as 1998'],
  azimuth: () => [
    'not-azimuth',
    'is not a direction',
    'Write degrees from 0 to 360 or a point of the compass such as N or NNE',
  ],
  text: () => ['not-text', 'is not text', 'Write words'],
  vocabulary: ({ name }) => [
    'unknown-word',
    'is not a word known here',
    `Use one of: ${wordsOf(name).join(', ')}`,
  ],
  yes_no: () => ['not-yes-no', 'is neither yes nor no', 'Write yes or no'],
  zone: () => ['not-zone', 'is not a climate zone', 'Write one such as 4A'],
  currency: () => ['not-currency', 'is not a currency', 'Write three letters such as USD or CAD'],
  date: (_, asOf) => [
    'not-date',
    `is not a date up to ${asOf}`,
    'Write it as 2019, 2019-05 or 2019-05-31',
  ],
};

/** A cell of an accepted row that could not be read. */
export function unreadable(rule: ColumnRule, value: string, asOf: number): Complaint {
  const [code, what, advice] = unread[rule.kind](rule, asOf);
  const says = `${rule.name} ${quote(value)} ${what}, so it is taken as no record. ${advice}, ${leaveEmpty}.`;
  return { column: rule.name, value, code, says };
}

/** A number in the unit of the file, where that is not the contract's. */
const given = (value: string, unit: string | null): string =>
  unit === null ? quote(value) : `${quote(value)} ${unit}`;

const ends = ([least, most]: Range, asOf: number): string =>
  `${boundOf(least, asOf)} to ${boundOf(most, asOf)}`;

/** A number of an accepted row that is not plausible. */
export function implausible(
  rule: ColumnRule,
  value: string,
  asOf: number,
  unit: string | null,
): Complaint {
  const span = `${ends(rule.range!, asOf)} ${rule.unit ?? ''}`.trim();
  const check = rule.kind === 'year' ? 'Check the year' : 'Check the number and its unit';
  const says = `${rule.name} ${given(value, unit)} lies outside ${span}, so it is taken as no record. ${check}.`;
  return { column: rule.name, value, code: 'range', says };
}

/** A number that sets its row aside. */
export function impossible(
  rule: ColumnRule,
  value: string,
  number: number,
  asOf: number,
  unit: string | null,
): Complaint {
  const cell = { column: rule.name, value };
  const [least, most] = rule.aside!;
  if (most === 'as_of' && number > asOf) {
    const says = `${rule.name} ${quote(value)} is after ${asOf}. Correct the year, or set "as of" to a later year.`;
    return { ...cell, code: 'after-as-of', says };
  }
  const limit =
    rule.kind === 'year'
      ? `is before ${boundOf(least, asOf)}. Correct the year`
      : `lies outside ${ends(rule.aside!, asOf)} ${rule.unit}. Correct the number`;
  return {
    ...cell,
    code: 'impossible',
    says: `${rule.name} ${given(value, unit)} ${limit}, ${leaveEmpty}.`,
  };
}
