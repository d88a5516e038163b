/** Calendar arithmetic without a clock: the proleptic Gregorian calendar, days and hours counted from 1970-01-01. */

const monthLengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

const isLeap = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);

const daysInMonth = (year: number, month: number): number =>
  (monthLengths[month - 1] ?? 0) + (month === 2 && isLeap(year) ? 1 : 0);

/** Hours of a calendar year. */
export const hoursOfYear = (year: number): number => (isLeap(year) ? 8784 : 8760);

/** Leap days before 1 January of a year, counted from the year 0. */
const leapDaysBefore = (year: number): number => {
  const last = year - 1;
  return Math.floor(last / 4) - Math.floor(last / 100) + Math.floor(last / 400);
};

const yearStart = (year: number): number =>
  365 * (year - 1970) + leapDaysBefore(year) - leapDaysBefore(1970);

/** Days from 1970-01-01; NaN where the calendar has no such day. */
export function dayNumber(year: number, month: number, day: number): number {
  if (!(day >= 1 && day <= daysInMonth(year, month))) return Number.NaN;
  let days = yearStart(year) + day - 1;
  for (let m = 1; m < month; m += 1) days += daysInMonth(year, m);
  return days;
}

/** Year, month and day of a day number. */
export function dateOf(days: number): { year: number; month: number; day: number } {
  let year = 1970 + Math.floor(days / 365.2425);
  if (yearStart(year) > days) year -= 1;
  if (yearStart(year + 1) <= days) year += 1;
  let day = days - yearStart(year) + 1;
  let month = 1;
  for (; day > daysInMonth(year, month); month += 1) day -= daysInMonth(year, month);
  return { year, month, day };
}

const two = (n: number): string => String(n).padStart(2, '0');

/** An hour, counted from 1970-01-01 00:00, as `2019-03-31 14:00`. */
export function hourText(hour: number): string {
  const days = Math.floor(hour / 24);
  const { year, month, day } = dateOf(days);
  return `${year}-${two(month)}-${two(day)} ${two(hour - 24 * days)}:00`;
}

/** Minutes from 1970-01-01 00:00, as read month first and day first; they differ only in dates such as 3/4/2019. */
export interface Moment {
  readonly monthFirst: number;
  readonly dayFirst: number;
}

const clock = String.raw`(?:(?:[T ]+|(?<=\d{8}))(?<hour>\d{1,2})(?:[:.h]?(?<minute>\d{2}))?(?::?\d{2}(?:[.,]\d+)?)?\s*(?<half>[ap]\.?m\.?)?)?`;
const zone = String.raw`\s*(?<zone>Z|UTC|GMT|LST|[+-]\d{2}(?::?\d{2})?)?`;
const form = (date: string): RegExp => new RegExp(`^${date}${clock}${zone}$`, 'i');

const ordered = form(String.raw`(?<year>\d{4})([-/.])(?<month>\d{1,2})\2(?<day>\d{1,2})`);
const compact = form(String.raw`(?<year>\d{4})(?<month>\d{2})(?<day>\d{2})`);
const named = form(String.raw`(?<day>\d{1,2})[- ](?<name>[a-z]{3})[a-z]*[- ](?<year>\d{4})`);
const either = form(String.raw`(?<month>\d{1,2})([-/.])(?<day>\d{1,2})\2(?<year>\d{4})`);

const monthNames = 'jan feb mar apr may jun jul aug sep oct nov dec'.split(' ');

type Parts = Readonly<Record<string, string | undefined>>;

/** Minutes after midnight; NaN for no time of day. */
function minuteOfDay({ hour, minute = '00', half }: Parts): number {
  const written = Number(hour);
  const wrongHalf = half !== undefined && !(written >= 1 && written <= 12);
  if (Number(minute) > 59 || wrongHalf) return Number.NaN;
  const afternoon = half?.toLowerCase().startsWith('p') ? 12 : 0;
  const minutes = 60 * (half ? (written % 12) + afternoon : written) + Number(minute);
  return minutes <= 1440 ? minutes : Number.NaN;
}

/** Minutes that the written time is ahead of universal time, where it says so. */
function offset(zone: string | undefined): number {
  const parts = /^([+-])(\d{2}):?(\d{2})?$/.exec(zone ?? '');
  if (!parts) return 0;
  const minutes = 60 * Number(parts[2]) + Number(parts[3] ?? 0);
  return parts[1] === '-' ? -minutes : minutes;
}

function moment(parts: Parts, mayTurn: boolean): Moment {
  const [year, day] = [Number(parts.year), Number(parts.day)];
  const month = parts.name ? monthNames.indexOf(parts.name.toLowerCase()) + 1 : Number(parts.month);
  const rest = minuteOfDay(parts) - offset(parts.zone);
  const monthFirst = 1440 * dayNumber(year, month, day) + rest;
  const dayFirst = mayTurn ? 1440 * dayNumber(year, day, month) + rest : monthFirst;
  return { monthFirst, dayFirst };
}

/**
 * Reads a date with a time of day: 2019-03-31 14:00 and its like (T, Z, offsets, no separators), 31-Mar-2019 14:00, and
 * 3/31/2019 2:00 PM, whose order is left open. Offsets are taken off; a time without one stays as written. 24:00 is the
 * end of the day. `date-only` where there is no time of day, null where it is no date.
 */
export function readMoment(text: string): Moment | 'date-only' | null {
  for (const pattern of [ordered, compact, named, either]) {
    const parts = pattern.exec(text)?.groups;
    if (!parts) continue;
    if (parts.hour === undefined) return 'date-only';
    const read = moment(parts, pattern === either);
    return Number.isNaN(read.monthFirst) && Number.isNaN(read.dayFirst) ? null : read;
  }
  return null;
}
