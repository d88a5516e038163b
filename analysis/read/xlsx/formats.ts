import { dayText, timeText } from '../day-text.ts';
import type { Cell } from '../typed-rows.ts';

/** What a number of a cell stands for, by its number format. */
export type Meaning = 'number' | 'percent' | 'year' | 'moment' | 'time';

const range = (from: number, to: number): number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);

/** Formats that are never written out (ECMA-376 part 1, 18.8.30), the ones of East Asian languages among them. */
const builtIn = new Map<number, Meaning>([
  ...[9, 10].map((id) => [id, 'percent'] as const),
  ...[...range(14, 17), 22, ...range(27, 31), 36, ...range(50, 58)].map(
    (id) => [id, 'moment'] as const,
  ),
  ...[...range(18, 21), ...range(32, 35), 45, 47].map((id) => [id, 'time'] as const),
]);

/** A format code without quoted text, escaped and padding characters, colours, conditions and locales. */
const bare = (code: string): string =>
  code
    .split(';', 1)[0]!
    .replace(/"[^"]*"?|\\.|[_*]./g, '')
    .replace(/\[[^\]]*\]?/g, '')
    .toLowerCase();

/** The meaning of a format by its number, and by its code where the workbook gives one. */
export function meaningOf(id: number, code: string | undefined): Meaning {
  if (code === undefined) return builtIn.get(id) ?? 'number';
  // A span of hours, `[h]:mm`, is an amount and no time of day.
  if (/\[(?:h+|m+|s+)\]/i.test(code) || /general/i.test(code)) return 'number';
  const text = bare(code);
  if (text.includes('%')) return 'percent';
  if (/^y+$/.test(text)) return 'year';
  if (/[yd]|m{3}/.test(text)) return 'moment';
  return /[hs]/.test(text) ? 'time' : /m/.test(text) ? 'moment' : 'number';
}

/** Days from the start of 1970 back to day 0 of the two calendars of workbooks (ECMA-376 part 1, 18.17.4.1). */
const dayZero = { from1900: -25_569, from1904: -24_107 } as const;

/** The last day of the year 9999, in either calendar. */
const lastDay = 2_958_465;

const secondsPerDay = 86_400;

/**
 * The date, moment or time of a serial number: yyyy-mm-dd, ISO 8601, or hh:mm:ss. The calendar from 1900 has a 29 February
 * that there never was, so its first two months stand a day off.
 */
function momentOf(serial: number, from1904: boolean, timeOnly: boolean): string {
  const seconds = Math.round(serial * secondsPerDay);
  const day = Math.floor(seconds / secondsPerDay);
  const rest = seconds - day * secondsPerDay;
  if (timeOnly && day === 0) return timeText(rest);
  const mended = !from1904 && day < 60 ? day + 1 : day;
  const date = dayText(mended + (from1904 ? dayZero.from1904 : dayZero.from1900));
  return rest === 0 ? date : `${date}T${timeText(rest)}`;
}

/** A number of a cell as its format means it; half per cent are `0.5%`. */
export function meant(value: number, meaning: Meaning, from1904: boolean): Cell {
  // Beyond fifteen digits a product shows how binary fractions are made, not what stands in the cell.
  if (meaning === 'percent') return `${Number((value * 100).toPrecision(15))}%`;
  if (meaning === 'number' || !(value >= 0 && value <= lastDay)) return value;
  const moment = momentOf(value, from1904, meaning === 'time');
  return meaning === 'year' ? moment.slice(0, 4) : moment;
}
