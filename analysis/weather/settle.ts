import { Refusal, type Remark } from '../read/outcome.ts';
import { type Complaint, remark } from '../read/sentences.ts';
import type { WeatherLayout } from './headings.ts';
import { unitNamed, weatherConstant } from './tables.ts';
import { hourText } from './time.ts';

/** Rows as they stand in the file. Missing numbers are NaN; flags are 0 or 1. */
export interface RawRows {
  readonly n: number;
  /** Minutes from 1970-01-01, as read month first and day first. */
  readonly monthFirst: Float64Array;
  readonly dayFirst: Float64Array;
  readonly rain: Float64Array;
  readonly speed: Float64Array;
  readonly direction: Float64Array;
  readonly temperature: Float64Array;
  readonly trace: Float64Array;
  readonly variable: Float64Array;
  readonly row: Float64Array;
  /** What is wrong with the time of a row if it cannot be read in the order that is settled on, by its place. */
  readonly unreadTimes: ReadonlyMap<number, Complaint>;
}

/** Hours in order of time, each once; hours may be absent. A missing number is NaN and never 0. */
export interface Hours {
  readonly n: number;
  /** Whole hours from 1970-01-01 00:00, in the time of the file. */
  readonly hour: Float64Array;
  /** mm; 0 for a trace. */
  readonly rain: Float64Array;
  /** m/s. */
  readonly speed: Float64Array;
  /** Degrees from which the wind comes, 0 to below 360; NaN where it is variable, calm by word, or not given. */
  readonly direction: Float64Array;
  /** °C. */
  readonly temperature: Float64Array;
  /** 1 where the rain is a trace. */
  readonly trace: Float64Array;
  /** 1 where the direction is given as variable. */
  readonly variable: Float64Array;
}

export interface Settled {
  readonly hours: Hours;
  /** Places of the rows that became hours. */
  readonly kept: ReadonlySet<number>;
  readonly setAside: readonly Remark[];
  readonly outOfOrder: number;
  readonly understood: readonly string[];
}

const hourOf = (minutes: number): number => Math.floor(minutes / 60);

/** How well times make an hourly record: rows with a time, then rows an hour from the row before them. */
function coherence(minutes: Float64Array): readonly [number, number] {
  const readable = minutes.reduce((n, m) => n + Number(!Number.isNaN(m)), 0);
  const steps = minutes.reduce((n, m, i) => n + Number(Math.abs(m - minutes[i - 1]!) === 60), 0);
  return [readable, steps];
}

/** Month first, unless day first makes more of the rows an hourly record. */
function isDayFirst({ monthFirst, dayFirst }: RawRows): boolean {
  const [readable, steps] = coherence(monthFirst);
  const [readableTurned, stepsTurned] = coherence(dayFirst);
  return readableTurned > readable || (readableTurned === readable && stepsTurned > steps);
}

/** The value met most often, the smallest of several; NaN of none. */
function commonest(values: readonly number[]): number {
  const times = new Map<number, number>();
  for (const value of values) times.set(value, (times.get(value) ?? 0) + 1);
  const [first] = [...times].sort(([a, m], [b, n]) => n - m || a - b);
  return first?.[0] ?? Number.NaN;
}

const minuteOf = (minutes: number): number => minutes - 60 * hourOf(minutes);

/**
 * One row an hour: of several, the one at the minute at which most rows of the file stand (the routine report of an
 * airfield), else the first in the file. Returns the places that stand, in order of time, and of the others the one that
 * stands instead.
 */
function oneAnHour(minutes: Float64Array, places: readonly number[]) {
  const routine = commonest(places.map((i) => minuteOf(minutes[i]!)));
  const byHour = new Map<number, number>();
  for (const i of places) {
    const stands = byHour.get(hourOf(minutes[i]!));
    const better = stands === undefined || (!isAt(stands) && isAt(i));
    if (better) byHour.set(hourOf(minutes[i]!), i);
  }
  function isAt(i: number): boolean {
    return minuteOf(minutes[i]!) === routine;
  }
  const standing = [...byHour].sort(([a], [b]) => a - b).map(([, i]) => i);
  const others = places.filter((i) => byHour.get(hourOf(minutes[i]!)) !== i);
  return { standing, others, insteadOf: (i: number) => byHour.get(hourOf(minutes[i]!))! };
}

/** Rows of the very same time are repeats; other rows of one hour mean that the file is finer than hourly. */
function refuseSubHourly(file: string, rows: number, repeats: number): void {
  if (repeats <= weatherConstant('repeats_most') * rows) return;
  throw new Refusal(
    file,
    `${file} is no hourly record: ${repeats} of its ${rows} rows stand in an hour that has another row already. Give one row an hour, with the rain of the whole hour and the mean wind.`,
  );
}

function refuseCoarse(file: string, hours: readonly number[]): void {
  if (hours.length < 2) return;
  const step = commonest(hours.slice(1).map((hour, i) => hour - hours[i]!));
  if (step === 1) return;
  throw new Refusal(
    file,
    `${file} is no hourly record: its rows are mostly ${step} hours apart. Rain and wind over several hours cannot be taken apart; choose an hourly record.`,
  );
}

/** Whether every direction could be in tens of degrees: whole, none above 36, at least one above 0. */
function couldBeTens(direction: Float64Array): boolean {
  const given = direction.filter((d) => !Number.isNaN(d));
  return given.some((d) => d > 0) && given.every((d) => d <= 36 && Number.isInteger(d));
}

function refuseDoubtfulDegrees(file: string, { direction: { heading } }: WeatherLayout): never {
  throw new Refusal(
    file,
    `Every direction under "${heading}" of ${file} is a whole number from 0 to 36, so they seem to be tens of degrees. If they are, head the column "wind direction (tens of degrees)"; if not, correct the directions.`,
  );
}

/** What to multiply directions by, and how that was found. */
function directionScale(file: string, layout: WeatherLayout, direction: Float64Array) {
  const { unit } = layout.direction;
  const tens = couldBeTens(direction);
  if (unit?.multiply === 1 && tens) {
    const given = direction.filter((d) => d > 0).length;
    if (given > weatherConstant('tens_doubt_hours')) refuseDoubtfulDegrees(file, layout);
  }
  if (unit) return { scale: 1, unit: unit.unit, why: '' };
  const read = unitNamed('direction', tens ? 'tens of degrees' : 'degrees');
  const why = tens ? ' (whole numbers, none above 36)' : '';
  return { scale: read.multiply, unit: read.unit, why };
}

function understoodOf(
  layout: WeatherLayout,
  { unit, why }: { unit: string; why: string },
  dates: string,
): readonly string[] {
  const { time, rain, speed, direction, temperature } = layout;
  return [
    `Time: "${time.heading}", as written, one row an hour${dates}.`,
    `Rain: "${rain.heading}", in ${rain.unit.unit}.`,
    `Wind speed: "${speed.heading}", in ${speed.unit.unit}.`,
    `Wind direction: "${direction.heading}", in ${unit}${why}; the direction the wind comes from.`,
    temperature
      ? `Temperature: "${temperature.heading}", in ${temperature.unit.unit}.`
      : 'Temperature: none in the file.',
  ];
}

function datesRead(raw: RawRows, dayFirst: boolean): string {
  const open = raw.monthFirst.some((m, i) => !Object.is(m, raw.dayFirst[i]));
  if (!open) return '';
  return dayFirst ? '; dates read day first' : '; dates read month first';
}

function repeatRemark(
  file: string,
  column: string,
  minutes: number,
  row: number,
  stands: number,
): Remark {
  const value = hourText(hourOf(minutes));
  const says = `the hour ${value} already stands in row ${stands}. Keep one row for it.`;
  return remark(file, row, { column, value, code: 'repeat-hour', says });
}

/**
 * Makes hours of rows: settles the order of dates, the unit of directions without one, the order of time, and one row
 * an hour. Throws a `Refusal` when the rows are more or less often than hourly, or when directions headed in degrees
 * are plainly in tens.
 */
export function settle(file: string, layout: WeatherLayout, raw: RawRows): Settled {
  const dayFirst = isDayFirst(raw);
  const minutes = dayFirst ? raw.dayFirst : raw.monthFirst;
  const places = [...raw.row.keys()];
  const timed = places.filter((i) => !Number.isNaN(minutes[i]!));
  const { standing, others, insteadOf } = oneAnHour(minutes, timed);
  const column = layout.time.heading;
  const setAside = [
    ...places
      .filter((i) => Number.isNaN(minutes[i]!))
      .map((i) => remark(file, raw.row[i]!, raw.unreadTimes.get(i)!)),
    ...others.map((i) =>
      repeatRemark(file, column, minutes[i]!, raw.row[i]!, raw.row[insteadOf(i)]!),
    ),
  ];
  const finer = others.filter((i) => minutes[i] !== minutes[insteadOf(i)]);
  refuseSubHourly(file, timed.length, finer.length);
  const hour = standing.map((i) => hourOf(minutes[i]!));
  refuseCoarse(file, hour);
  const direction = directionScale(file, layout, raw.direction);
  const take = (values: Float64Array): Float64Array =>
    Float64Array.from(standing, (i) => values[i]!);
  return {
    hours: {
      n: standing.length,
      hour: Float64Array.from(hour),
      rain: take(raw.rain),
      speed: take(raw.speed),
      direction: take(raw.direction).map((d) => (d * direction.scale) % 360),
      temperature: take(raw.temperature),
      trace: take(raw.trace),
      variable: take(raw.variable),
    },
    kept: new Set(standing),
    setAside,
    outOfOrder: timed.filter((i, k) => k > 0 && minutes[i]! < minutes[timed[k - 1]!]!).length,
    understood: understoodOf(layout, direction, datesRead(raw, dayFirst)),
  };
}
