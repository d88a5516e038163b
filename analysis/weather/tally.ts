import { airfieldTerm } from './rose.ts';
import type { Hours } from './settle.ts';
import { weatherConstant } from './tables.ts';
import { dateOf, dayNumber, hoursOfYear } from './time.ts';

/** A part of the hours: how many, and the precipitation (mm) and Σ r v (mm · m/s) in them. */
interface Part {
  readonly hours: number;
  readonly mm: number;
  readonly rainWind: number;
}

/** Counts and sums over a record. *Rain* is not frozen; trace hours hold 0 mm. */
export interface Tally {
  /** From the first hour to the last, both included. */
  readonly span: number;
  /** Hours with a row. */
  readonly present: number;
  /** Rows without a rain figure, and without a wind speed. */
  readonly withoutRain: number;
  readonly withoutSpeed: number;
  readonly trace: number;
  readonly calm: number;
  readonly variable: number;
  /** Hours with precipitation at or below freezing: in no figure of driven rain. */
  readonly frozen: Part;
  /** Hours with rain. */
  readonly wet: Part;
  readonly wetWithoutTemperature: number;
  /** Hours with rain whose wind speed is missing: in the rain, in no figure of wind and rain. */
  readonly wetWithoutSpeed: Part;
  /** Hours with rain and wind speed: what U, κ and the airfield index are made of. */
  readonly driven: Part;
  /** Those of them with wind but no direction: in U, in no figure of direction. */
  readonly directionless: Part;
  /** Share of Σ v r^(8/9) in them, 0-1. */
  readonly directionlessAirfield: number;
  /** Mean wind over all hours with a speed, wet or dry, m/s. */
  readonly meanWind: number;
}

const known = (x: number): boolean => !Number.isNaN(x);

const freezing = weatherConstant('freezing_c');

/** Whether the precipitation of an hour counts as frozen: at or below 0 °C. Without a temperature it does not. */
const isFrozen = ({ rain, temperature }: Hours, i: number): boolean =>
  rain[i]! > 0 && temperature[i]! <= freezing;

/** Whether an hour has rain, not frozen, and a wind speed. */
export const isDriven = (hours: Hours, i: number): boolean =>
  hours.rain[i]! > 0 && known(hours.speed[i]!) && !isFrozen(hours, i);

type Choice = (i: number) => boolean;

function count(hours: Hours, include: Choice): number {
  let n = 0;
  for (let i = 0; i < hours.n; i += 1) if (include(i)) n += 1;
  return n;
}

function sum(hours: Hours, include: Choice, value: (i: number) => number): number {
  let total = 0;
  for (let i = 0; i < hours.n; i += 1) if (include(i)) total += value(i);
  return total;
}

function part(hours: Hours, include: Choice): Part {
  const { rain, speed } = hours;
  return {
    hours: count(hours, include),
    mm: sum(hours, include, (i) => rain[i]!),
    rainWind: sum(
      hours,
      (i) => include(i) && known(speed[i]!),
      (i) => rain[i]! * speed[i]!,
    ),
  };
}

/** Counts and sums over the hours, in their order. */
export function tally(hours: Hours): Tally {
  const { n, hour, rain, speed, direction, temperature } = hours;
  const wet: Choice = (i) => rain[i]! > 0 && !isFrozen(hours, i);
  const driven: Choice = (i) => isDriven(hours, i);
  const directionless: Choice = (i) => driven(i) && speed[i]! > 0 && !known(direction[i]!);
  const term = (i: number) => airfieldTerm(speed[i]!, rain[i]!);
  const withSpeed: Choice = (i) => known(speed[i]!);
  return {
    span: hour[n - 1]! - hour[0]! + 1,
    present: n,
    withoutRain: count(hours, (i) => !known(rain[i]!)),
    withoutSpeed: count(hours, (i) => !known(speed[i]!)),
    trace: count(hours, (i) => hours.trace[i] === 1),
    calm: count(hours, (i) => speed[i] === 0),
    variable: count(hours, (i) => hours.variable[i] === 1),
    frozen: part(hours, (i) => isFrozen(hours, i)),
    wet: part(hours, wet),
    wetWithoutTemperature: count(hours, (i) => wet(i) && !known(temperature[i]!)),
    wetWithoutSpeed: part(hours, (i) => wet(i) && !known(speed[i]!)),
    driven: part(hours, driven),
    directionless: part(hours, directionless),
    directionlessAirfield: sum(hours, directionless, term) / sum(hours, driven, term),
    meanWind: sum(hours, withSpeed, (i) => speed[i]!) / count(hours, withSpeed),
  };
}

/** How much of which years a record covers. */
export interface Coverage {
  /** Years of hours with a rain figure; every calendar year that is covered whole counts 1. */
  readonly years: number;
  /** Less than a year, to a tenth: sums are not blown up to a year. */
  readonly partYear: boolean;
  /** The file leaves its dry hours out: hours without a figure are taken as dry, and years counted first to last. */
  readonly dryHoursLeftOut: boolean;
  /** Covered share of each calendar month, 0-1 of the best covered one, January first. */
  readonly months: Float64Array;
}

const yearStartHour = (year: number): number => 24 * dayNumber(year, 1, 1);
const yearOf = (hour: number): number => dateOf(Math.floor(hour / 24)).year;

/** Years from one hour to another (not included): each calendar year's hours over the hours it has. */
function yearsBetween(from: number, to: number): number {
  let years = 0;
  for (let year = yearOf(from); year <= yearOf(to - 1); year += 1) {
    const start = Math.max(from, yearStartHour(year));
    years += (Math.min(to, yearStartHour(year + 1)) - start) / hoursOfYear(year);
  }
  return years;
}

/** Years of single hours: by calendar year, their number over the hours that the year has. */
function yearsOfHours(hours: readonly number[]): number {
  const byYear = new Map<number, number>();
  for (const hour of hours) byYear.set(yearOf(hour), (byYear.get(yearOf(hour)) ?? 0) + 1);
  return [...byYear].reduce((years, [year, n]) => years + n / hoursOfYear(year), 0);
}

const meanMonthDays = [31, 28.2425, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

function monthsOfHours(hours: readonly number[]): Float64Array {
  const covered = new Float64Array(12);
  for (const hour of hours) covered[dateOf(Math.floor(hour / 24)).month - 1]! += 1;
  const shares = covered.map((n, month) => n / meanMonthDays[month]!);
  const best = Math.max(...shares);
  return shares.map((share) => share / best);
}

/**
 * Years and months that a record covers. Files that hold few hours with a rain figure, and mostly wet ones, leave their
 * dry hours out; dividing by the hours they hold would make the rain many times too much.
 */
export function coverage(hours: Hours, { span, withoutRain, present }: Tally): Coverage {
  const { hour, rain } = hours;
  const withRain = present - withoutRain;
  const wetShare = count(hours, (i) => rain[i]! > 0) / withRain;
  const dryHoursLeftOut =
    wetShare > weatherConstant('mostly_wet_share') &&
    withRain / span < weatherConstant('mostly_wet_coverage');
  const read = [...hour].filter((_, i) => known(rain[i]!));
  const years = dryHoursLeftOut ? yearsBetween(hour[0]!, hour.at(-1)! + 1) : yearsOfHours(read);
  return {
    years,
    partYear: Math.round(10 * years) < 10,
    dryHoursLeftOut,
    months: monthsOfHours(read),
  };
}
