import { Refusal } from '../../read/outcome.ts';
import { type CalendarDate, monthAfter } from './calendar.ts';
import { textOf, type Variable, whole } from './variables.ts';
import type { Layers } from './year.ts';

/** Days of the unit of a time axis. */
const unitDays: Readonly<Record<string, number>> = {
  day: 1,
  hour: 1 / 24,
  hr: 1 / 24,
  h: 1 / 24,
  minute: 1 / 1440,
  min: 1 / 1440,
  second: 1 / 86400,
  sec: 1 / 86400,
  s: 1 / 86400,
};

/** Days between the middles or ends of neighbouring months, and of years. */
const monthSteps = [27, 32] as const;
const yearSteps = [359, 367] as const;

const since = /^(\w+?)s?\s+since\s+(-?\d{1,4})-(\d{1,2})-(\d{1,2})/i;

const within = (steps: readonly number[], [least, most]: readonly [number, number]): boolean =>
  steps.every((step) => step >= least && step <= most);

/** How the steps of a time axis in days follow one another. */
function byDays(
  times: Float64Array,
  perUnit: number,
  from: CalendarDate,
  calendar: string,
): Layers | null {
  const days = Array.from(times, (t) => t * perUnit);
  const steps = days.slice(1).map((t, k) => t - days[k]!);
  const n = times.length;
  if (within(steps, yearSteps)) return { kind: 'years', n };
  if (!within(steps, monthSteps) || n % 12 !== 0) return null;
  return { kind: 'months', n, first: monthAfter(from, days[0]!, calendar) };
}

function byMonths(times: Float64Array, month: number): Layers | null {
  const n = times.length;
  const even = times.every((t, k) => Math.abs(t - times[0]! - k) < 0.1);
  const first = (((month + Math.floor(times[0]!)) % 12) + 12) % 12;
  return even && n % 12 === 0 ? { kind: 'months', n, first } : null;
}

/** What a time axis says; null where it says nothing we know. */
function said(units: string, calendar: string, times: Float64Array): Layers | null {
  const [, unit = '', year, month, day] = since.exec(units) ?? [];
  const from = { year: Number(year), month: Number(month) - 1, day: Number(day) };
  const name = unit.toLowerCase();
  const perUnit = unitDays[name];
  if (perUnit !== undefined) return byDays(times, perUnit, from, calendar);
  if (name === 'month') return byMonths(times, from.month);
  if (name === 'year' || name === 'common_year') return { kind: 'years', n: times.length };
  return null;
}

/** Twelve layers with numbers 0 … 11 or 1 … 12, or with no axis at all, are the months of a year. */
const climatology: Layers = { kind: 'months', n: 12, first: 0 };

/**
 * How the `n` steps of a file make a year: one is the year, months make whole years, years are averaged. Anything else
 * is refused. `axis` is the time variable, null where the file has none.
 */
export async function layersOf(file: string, n: number, axis: Variable | null): Promise<Layers> {
  if (n === 1) return { kind: 'one', n: 1 };
  const units = axis ? textOf(axis, 'units') : '';
  const layers =
    axis && since.test(units)
      ? said(units, textOf(axis, 'calendar').toLowerCase(), await whole(axis))
      : null;
  if (layers) return layers;
  if (n === 12 && !since.test(units)) return climatology;
  throw new Refusal(
    file,
    `${file} has ${n} time steps that are neither the months of whole years nor years. Give one layer with the mean year, or twelve with its months, January first.`,
  );
}

/** Whether a variable is the time axis. */
export const isTime = (variable: Variable): boolean =>
  textOf(variable, 'standard_name') === 'time' ||
  textOf(variable, 'axis') === 'T' ||
  since.test(textOf(variable, 'units')) ||
  /^(time|month|months|climatology|t)$/i.test(variable.name);

/** Whether a dimension without a variable is time by its name. */
export const isTimeName = (name: string): boolean => /^(time|month|months|t|record)$/i.test(name);
