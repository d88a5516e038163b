import { isBlank, type Reading } from '../read/cells.ts';
import { readNumber } from '../read/number-text.ts';
import type { SheetSample } from './column-map.ts';
import { others } from './heading-names.ts';
import { isSilent, wordsIn } from './heading-words.ts';

/** A column of the sample, as guesses look at it. */
export interface Profile {
  readonly position: number;
  readonly heading: string;
  readonly words: readonly string[];
  /** The heading says nothing, so the values must. */
  readonly silent: boolean;
  /** The heading has a word by which it speaks of something outside the contract. */
  readonly elsewhere: boolean;
  /** Cells of the rows looked at, trimmed. */
  readonly cells: readonly string[];
  /** Those that are not blank. */
  readonly values: readonly string[];
  readonly distinct: ReadonlyMap<string, number>;
  /** Share of the rows that are not blank. */
  readonly filled: number;
  /** Plain numbers of `values`, NaN where a value is none. */
  readonly numbers: readonly number[];
  /** Orders columns by what they hold, so that guesses do not depend on their order. */
  readonly key: string;
}

/** Values looked at in each column: enough to tell what it holds. */
const looked = 500;

/** The year of the analysis is not known to a guess; years are held to be plausible up to this one. */
export const guessReading = (decimalComma: boolean): Reading => ({ asOf: 2100, decimalComma });

function profileOf(heading: string, position: number, sample: SheetSample): Profile {
  const cells = sample.rows.slice(0, looked).map((row) => (row[position] ?? '').trim());
  const values = cells.filter((text) => !isBlank(text));
  const distinct = new Map<string, number>();
  for (const value of values) distinct.set(value, (distinct.get(value) ?? 0) + 1);
  const words = wordsIn(heading);
  return {
    position,
    heading: heading.trim(),
    words,
    silent: isSilent(heading),
    elsewhere: words.some((word) => others.has(word)),
    cells,
    values,
    distinct,
    filled: cells.length === 0 ? 0 : values.length / cells.length,
    numbers: values.map((value) => readNumber(value, sample.decimalComma)),
    key: [heading.trim(), ...values.slice(0, 20)].join('\n'),
  };
}

export const profilesOf = (sample: SheetSample): readonly Profile[] =>
  sample.headings.map((heading, position) => profileOf(heading, position, sample));

export const share = <T>(all: readonly T[], fits: (one: T) => boolean): number =>
  all.length === 0 ? 0 : all.filter(fits).length / all.length;

/** Whether no two cells of the column are the same. */
export const isUnique = ({ values, distinct }: Profile): boolean =>
  values.length > 0 && distinct.size === values.length;

export function median(all: readonly number[]): number {
  const sorted = all.filter((x) => !Number.isNaN(x)).sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? Number.NaN;
}
