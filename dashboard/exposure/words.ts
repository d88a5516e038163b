import { eraBands, heightBands } from '../../analysis/bands.ts';
import { type SumTable, sumAt } from '../../analysis/exposure/sums.ts';
import type { Dimension, ExposureView } from '../../analysis/exposure/types.ts';
import { tiers } from '../../analysis/session-types.ts';
import { counted, digits, figureOf, joined, noRecord } from '../parts/format.ts';
import { quantities, type Units } from '../parts/quantity.ts';
import { plainWord } from '../parts/words.ts';
import { rangeWords } from '../rank/filter-sentence.ts';
import type { Shown } from './form.ts';

export const dimensionWords: Readonly<Record<Dimension, string>> = {
  tier: 'Tier',
  region: 'Region',
  height: 'Height',
  era: 'Cladding put up',
  material: 'Cladding',
  currency: 'Currency',
};

export const shownWords: readonly { readonly value: Shown; readonly word: string }[] = [
  { value: 'value', word: 'insured value' },
  { value: 'buildings', word: 'buildings' },
  { value: 'lines', word: 'lines' },
  { value: 'areaM2', word: 'wall area' },
  { value: 'weightedM2', word: 'index-weighted area' },
];

export const currencyWord = (currency: string | null): string =>
  currency ?? 'no currency on record';

const bandWord =
  (column: string, bands: readonly { from?: number; below?: number }[]) =>
  (_: ExposureView['words'], code: number, units: Units): string =>
    rangeWords(column, bands[code]!, units);

const levelWords: Readonly<
  Record<Dimension, (words: ExposureView['words'], code: number, units: Units) => string>
> = {
  tier: (_, code) => tiers[code]!,
  region: ({ region }, code) => region[code]!,
  material: ({ material }, code) => plainWord(material[code]!),
  currency: ({ currency }, code) => currency[code]!,
  height: bandWord('height_used_m', heightBands),
  era: bandWord('installed_used', eraBands),
};

/** A level of a dimension as it is read: *First look*, *10 to 15 m*, *no record*. */
export function levelWord(
  words: ExposureView['words'],
  dimension: Dimension,
  code: number,
  units: Units,
): string {
  if (code < 0) return dimension === 'currency' ? currencyWord(null) : noRecord;
  return levelWords[dimension](words, code, units);
}

/** The unit of a measure: money has its currency, counts have none. */
export function unitOf(shown: Shown, currency: string | null, units: Units): string {
  if (shown === 'value') return currency ?? 'no currency';
  return shown.endsWith('M2') ? quantities.area[units].unit : '';
}

/** Digits of a sum, without its unit. */
export const sumDigits = (sum: number, shown: Shown, units: Units): string =>
  shown.endsWith('M2') ? figureOf(sum, 'area', units).digits : digits(sum, 0);

/** A sum with its unit. */
export const sumWords = (
  sum: number,
  shown: Shown,
  currency: string | null,
  units: Units,
): string => joined({ digits: sumDigits(sum, shown, units), unit: unitOf(shown, currency, units) });

/** What is known of a group, measure by measure: lines in the sum, of all its lines. */
const knownLines: Readonly<Record<Shown, (sums: SumTable, group: number) => number>> = {
  value: (sums, group) => sumAt(sums, 'valued', group, 'all'),
  buildings: (sums, group) => sumAt(sums, 'lines', group, 'all'),
  lines: (sums, group) => sumAt(sums, 'lines', group, 'all'),
  areaM2: (sums, group) =>
    sumAt(sums, 'lines', group, 'all') - sumAt(sums, 'areaUnknown', group, 'all'),
  weightedM2: (sums, group) =>
    sumAt(sums, 'lines', group, 'all') - sumAt(sums, 'weightedUnknown', group, 'all'),
};

/** Whether any line of the group has what is summed: a sum of nothing is no record, not 0. */
export const isKnown = (sums: SumTable, shown: Shown, group: number): boolean =>
  knownLines[shown](sums, group) > 0;

/** What stands where a sum of nothing would: lines lie there, and none says in this currency. */
export const absentWord = (sums: SumTable, shown: Shown, group: number): string =>
  shown === 'value' && sumAt(sums, 'valuedElsewhere', group, 'all') > 0
    ? 'other currency'
    : noRecord;

const lines = (n: number): string => counted(n, 'line');

/** What is not in a sum, in words; '' where every line is in it. */
export function leftOut(sums: SumTable, shown: Shown, group = 0): string {
  const of = (measure: Parameters<typeof sumAt>[1]) => sumAt(sums, measure, group, 'all');
  const parts: Readonly<Record<Shown, readonly (readonly [number, string])[]>> = {
    value: [
      [of('valueUnknown'), 'value not on record'],
      [of('valuedElsewhere'), 'value in another currency'],
    ],
    buildings: [[of('countUnknown'), 'number of buildings not on record, each taken as one']],
    lines: [],
    areaM2: [[of('areaUnknown'), 'wall area not on record']],
    weightedM2: [[of('weightedUnknown'), 'not scored, or wall area not on record']],
  };
  return parts[shown]
    .filter(([n]) => n > 0)
    .map(([n, why]) => `${why}: ${lines(n)}`)
    .join('; ');
}

/** *412 lines = First look 57 + … + Not scored 9.* */
export function reconciled(view: Pick<ExposureView, 'lines' | 'byTier'>): string {
  const parts = tiers.map((tier, i) => `${tier} ${digits(view.byTier[i]!, 0)}`);
  return `${lines(view.lines)} = ${parts.join(' + ')}.`;
}
