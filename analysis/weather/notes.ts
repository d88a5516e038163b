import type { WeatherRecord } from './read.ts';
import { weatherConstant } from './tables.ts';
import type { Coverage, Tally } from './tally.ts';
import { hourText } from './time.ts';

/** What is known when a note is written. */
interface Known {
  readonly record: WeatherRecord;
  readonly tally: Tally;
  readonly coverage: Coverage;
}

/** A sentence, or null where there is nothing to say. */
type Note = (known: Known) => string | null;

const figure = (x: number, decimals = 0): string =>
  x.toLocaleString('en-US', { minimumFractionDigits: decimals, maximumFractionDigits: decimals });

const hoursOf = (n: number): string => (n === 1 ? '1 hour' : `${figure(n)} hours`);

const percent = (share: number): string =>
  share < 0.01 ? 'less than 1 %' : `${Math.round(100 * share)} %`;

/** Years covered, to a tenth: `12 years`, `9.5 years`, `under 0.1 years`. */
export function yearsText(years: number): string {
  const tenths = Math.round(10 * years) / 10;
  if (tenths === 0) return 'under 0.1 years';
  return tenths === 1 ? '1 year' : `${tenths} years`;
}

const short: Note = ({ coverage: { years, partYear } }) => {
  if (Math.round(10 * years) / 10 >= weatherConstant('least_years')) return null;
  const sums = partYear
    ? ' There is less than a year, so figures are sums over the record and no class is given.'
    : '';
  return `${yearsText(years)}: not an annual average.${sums}`;
};

const leftOut: Note = ({
  coverage: { dryHoursLeftOut },
  tally: { span, present, withoutSpeed },
}) => {
  if (!dryHoursLeftOut) return null;
  const wind =
    present - withoutSpeed < span / 2
      ? ' There is no wind for most hours, so no driving-rain index is given.'
      : '';
  return `Few hours have a rain figure and most of those are wet, so the other hours are taken as dry and years are counted from the first hour to the last.${wind}`;
};

const gaps: Note = ({ record: { hours }, coverage, tally: { span, present, withoutRain } }) => {
  const absent = span - present;
  if (coverage.dryHoursLeftOut || absent + withoutRain === 0) return null;
  const [first, last] = [hours.hour[0]!, hours.hour.at(-1)!].map(hourText);
  return `Of the ${hoursOf(span)} from ${first} to ${last}, ${figure(absent)} have no row and ${figure(withoutRain)} a row without a rain figure; years count only hours with one.`;
};

const uneven: Note = ({ coverage: { months, partYear, dryHoursLeftOut } }) => {
  if (dryHoursLeftOut || partYear || Math.min(...months) >= weatherConstant('uneven_months')) {
    return null;
  }
  return 'The months of the year are not covered alike, so some seasons weigh more than in a year.';
};

const frozen: Note = ({
  record,
  tally: {
    frozen: { hours, mm },
    wetWithoutTemperature,
  },
}) => {
  if (!record.hasTemperature) {
    return 'The file has no temperature: snow cannot be told from rain and counts as rain.';
  }
  const blank =
    wetWithoutTemperature > 0
      ? ` Counted as rain for want of a temperature: ${hoursOf(wetWithoutTemperature)}.`
      : '';
  return `Frozen precipitation is not driven rain. Left out of every figure of rain: ${hoursOf(hours)} with precipitation at or below 0 °C (${figure(mm, 1)} mm).${blank}`;
};

const directionless: Note = ({ tally: { directionless, driven, directionlessAirfield } }) => {
  if (directionless.hours === 0) return null;
  return `In ${hoursOf(directionless.hours)} with rain the wind has no direction (variable or not given). Such hours hold ${percent(directionless.rainWind / driven.rainWind)} of wind × rain: they count in the wind during rain, U, while κ is a share over the hours with a direction. The airfield index leaves them out, which is ${percent(directionlessAirfield)} of what it would sum.`;
};

const windless: Note = ({ tally: { wetWithoutSpeed, wet } }) => {
  if (wetWithoutSpeed.hours === 0) return null;
  return `In ${hoursOf(wetWithoutSpeed.hours)} with rain the wind speed is missing. That rain (${percent(wetWithoutSpeed.mm / wet.mm)} of all) counts as rain, but not in U, κ or the airfield index.`;
};

const trace: Note = ({ tally: { trace } }) =>
  trace === 0 ? null : `Trace of rain, counted as 0 mm: ${hoursOf(trace)}.`;

const calm: Note = ({ tally: { calm } }) =>
  calm === 0 ? null : `Calm, counted with a wind of 0: ${hoursOf(calm)}.`;

const outOfOrder: Note = ({ record }) =>
  record.outOfOrder === 0
    ? null
    : `The rows are not in order of time (${figure(record.outOfOrder)} stand after a later one); they were put in order.`;

const notes: readonly Note[] = [
  short,
  leftOut,
  gaps,
  uneven,
  frozen,
  directionless,
  windless,
  trace,
  calm,
  outOfOrder,
];

/** What to know about a record, a sentence each, gravest first. */
export const notesOn = (
  record: WeatherRecord,
  tally: Tally,
  coverage: Coverage,
): readonly string[] =>
  notes.map((note) => note({ record, tally, coverage })).filter((text) => text !== null);
