import { gapWords } from '../../analysis/units.ts';
import { columnKinds, type Kind, quantities, type Units, unitKinds } from './quantity.ts';

/** A value as it stands in a row of the analysis: null is *no record*. */
export type Value = number | string | null | undefined;

export const noRecord = 'no record';

/** A space that does not break: a number never parts from its unit. */
const join = '\u00a0';

/** A figure ready to be set: the digits, and the unit beside them ('' where the kind has none). */
export interface Figure {
  readonly digits: string;
  readonly unit: string;
}

const writers = new Map<number, Intl.NumberFormat>();

function writer(decimals: number): Intl.NumberFormat {
  const known = writers.get(decimals);
  if (known) return known;
  const made = new Intl.NumberFormat('en-US', {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
  });
  writers.set(decimals, made);
  return made;
}

const absent = (value: Value): value is null | undefined =>
  value === null || value === undefined || value === '' || Number.isNaN(value);

/** Digits with thousands separators and a true minus sign; a negative that rounds to zero loses its sign. */
export function digits(value: number, decimals: number): string {
  const text = writer(decimals).format(value);
  const zero = !/[1-9]/.test(text);
  return text.replace('-', zero ? '' : '\u2212');
}

/** Probabilities have two digits at most and never claim certainty. */
function probability(value: number): string {
  if (value < 0.01) return '< 0.01';
  if (value > 0.99) return '> 0.99';
  return digits(value, 2);
}

/** Kinds whose digits are not a plain scaled number. */
const written: Partial<Record<Kind, (value: number) => string>> = {
  probability,
  year: (value) => String(Math.round(value)),
  plain: (value) => digits(value, Math.min(4, Math.max(0, 3 - magnitude(value)))),
};

const magnitude = (value: number): number =>
  value === 0 ? 3 : Math.floor(Math.log10(Math.abs(value)));

/** A stored (metric) number in the units asked for, rounded to what its kind shows. */
export function figureOf(value: number, kind: Kind, units: Units): Figure {
  if (kind === 'gap' && units === 'american') return gapFigure(value);
  const { unit, decimals, times, plus = 0 } = { plus: 0, ...quantities[kind][units] };
  const write = written[kind];
  return { digits: write ? write(value) : digits(value * times + plus, decimals), unit };
}

/** Gaps that the trade says in sixteenths are said so: 3/16 in, 1/4 in. */
function gapFigure(mm: number): Figure {
  const [digits = '', unit = ''] = gapWords(mm, 'american').split(' ');
  return { digits, unit };
}

/** Degrees, percent and the like stand tight against their digits. */
export const tight = (unit: string): boolean => unit === '°' || unit === '%';

export const joined = (figure: Figure): string =>
  `${figure.digits}${figure.unit === '' || tight(figure.unit) ? '' : join}${figure.unit}`;

/** Any cell of a contract, ranking or wall column as a sentence would say it: digits, unit, or *no record*. */
export function show(value: Value, column: string, units: Units, currency?: Value): string {
  if (absent(value)) return noRecord;
  if (typeof value === 'string') return value;
  const kind = columnKinds[column] ?? 'plain';
  if (kind === 'money') return money(value, currency);
  return joined(figureOf(value, kind, units));
}

/** Money keeps the currency of its row; without one it says so. */
export function money(value: Value, currency: Value): string {
  if (absent(value)) return noRecord;
  const unit = absent(currency) ? 'no currency' : String(currency);
  return `${digits(Number(value), 0)}${join}${unit}`;
}

/**
 * A value of a ledger in the units asked for. The formula beside it holds in metric units, so the American
 * figure keeps the metric one in brackets.
 */
export function ledgerValue(value: Value, unit: string | undefined, units: Units): string {
  if (absent(value)) return noRecord;
  if (typeof value === 'string') return unit ? `${value}${join}${unit}` : value;
  const kind = unit === undefined ? undefined : unitKinds[unit];
  const metric = joined({ digits: exact(value, unit), unit: unit === '1' ? '' : (unit ?? '') });
  if (units === 'metric' || kind === undefined) return metric;
  return `${joined(figureOf(value, kind, units))} (${metric})`;
}

/** Ledger digits: what the method published, at most six decimals, years without separators. */
function exact(value: number, unit: string | undefined): string {
  if (
    unit === 'year' ||
    (unit === undefined && Number.isInteger(value) && value > 1800 && value < 2200)
  )
    return String(value);
  const text = new Intl.NumberFormat('en-US', { maximumFractionDigits: 6 }).format(value);
  return text.replace('-', '\u2212');
}

const points = [
  'N',
  'NNE',
  'NE',
  'ENE',
  'E',
  'ESE',
  'SE',
  'SSE',
  'S',
  'SSW',
  'SW',
  'WSW',
  'W',
  'WNW',
  'NW',
  'NNW',
];

/** The direction a wall faces: degrees and the point of the compass. */
export function facing(azimuth: Value): string {
  if (typeof azimuth !== 'number' || Number.isNaN(azimuth)) return noRecord;
  return `${points[Math.round((azimuth % 360) / 22.5) % 16]}, ${digits(azimuth, 0)}°`;
}

export const counted = (n: number, one: string, many = `${one}s`): string =>
  `${digits(n, 0)} ${n === 1 ? one : many}`;
