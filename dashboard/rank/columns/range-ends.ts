import type { Band } from '../../../analysis/bands.ts';
import { columnKinds, type Kind, quantities, type Units } from '../../parts/quantity.ts';
import { numberNeeded } from '../../parts/words.ts';

/** The two ends of a range as they are typed. */
export type End = 'from' | 'upTo';

/** Texts of the ends that are not taken yet; an end that is not named stands as it is. */
export type Typed = Readonly<Partial<Record<End, string>>>;

const kindOf = (column: string): Kind => columnKinds[column] ?? 'plain';

const wholeKinds: ReadonlySet<Kind> = new Set(['year', 'count']);

/** Whether the figures of a column are whole numbers: a range of those has both its ends within. */
export const isWhole = (column: string): boolean => wholeKinds.has(kindOf(column));

const writingOf = (column: string, units: Units) => ({
  plus: 0,
  ...quantities[kindOf(column)][units],
});

const rounded = (value: number): number => Math.round(value * 1e6) / 1e6;

/** The ends of a stored range (from ≤ x < below) as they stand in the form, in the units in use. */
export function shownEnds(
  column: string,
  { from, below }: Band,
  units: Units,
): Readonly<Record<End, string>> {
  const { times, plus } = writingOf(column, units);
  const shown = (value: number | undefined) =>
    value === undefined ? '' : String(rounded(value * times + plus));
  if (!isWhole(column)) return { from: shown(from), upTo: shown(below) };
  return {
    from: shown(from === undefined ? undefined : Math.ceil(from)),
    upTo: shown(below === undefined ? undefined : Math.ceil(below) - 1),
  };
}

/** Why a range was not taken, in words. */
export interface Refused {
  readonly refused: string;
}

/** The range as stored, with what was typed put into what stands; words where it would make no sense. */
export function rangeTyped(
  column: string,
  standing: Band,
  typed: Typed,
  units: Units,
): Band | Refused {
  const whole = isWhole(column);
  const numbers = Object.values(typed).filter((text) => text.trim() !== '');
  if (numbers.some((text) => !Number.isFinite(Number(text)))) {
    return { refused: numberNeeded };
  }
  if (whole && numbers.some((text) => !Number.isInteger(Number(text)))) {
    return { refused: 'A whole number is needed here.' };
  }
  const { times, plus } = writingOf(column, units);
  const stored = (text: string | undefined, old: number | undefined, more: number) => {
    if (text === undefined) return old;
    return text.trim() === '' ? undefined : (Number(text) + more - plus) / times;
  };
  const from = stored(typed.from, standing.from, 0);
  const below = stored(typed.upTo, standing.below, whole ? 1 : 0);
  if (from !== undefined && below !== undefined && from >= below) {
    const ends = { ...shownEnds(column, standing, units), ...typed };
    return { refused: reversedWords(ends, whole) };
  }
  return { ...(from !== undefined && { from }), ...(below !== undefined && { below }) };
}

const reversedWords = ({ from, upTo }: Readonly<Record<End, string>>, whole: boolean): string =>
  whole
    ? `No figure lies from ${from} to ${upTo}: the first must not be above the second. The filter stands as it was.`
    : `No figure is at or above ${from} and below ${upTo}: the first must be less than the second. The filter stands as it was.`;
