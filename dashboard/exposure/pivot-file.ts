import { csvText } from '../../analysis/export/csv-text.ts';
import { type Scope, type SumTable, scopes, sumAt } from '../../analysis/exposure/sums.ts';
import type { Crossing, ExposureView } from '../../analysis/exposure/types.ts';
import { inUnits } from '../../analysis/units.ts';
import type { Units } from '../parts/quantity.ts';
import { levelWord } from './words.ts';

/** Ours to say in a file: which lines, and that the figures screen. */
export interface Told {
  /** The filter as a noun phrase; '' for none. */
  readonly filter: string;
  readonly units: Units;
}

type Measured = (sums: SumTable, group: number, scope: Scope, units: Units) => number | null;

const count =
  (measure: Parameters<typeof sumAt>[1]): Measured =>
  (sums, group, scope) =>
    sumAt(sums, measure, group, scope);

/** Area and value are blank where no line of the group has one: a sum of nothing is no record. */
const area =
  (measure: 'areaM2' | 'weightedM2', unknown: 'areaUnknown' | 'weightedUnknown'): Measured =>
  (sums, group, scope, units) =>
    sumAt(sums, unknown, group, scope) === sumAt(sums, 'lines', group, scope)
      ? null
      : inUnits(sumAt(sums, measure, group, scope), 'area', units);

const value: Measured = (sums, group, scope) =>
  sumAt(sums, 'valued', group, scope) === 0 ? null : sumAt(sums, 'value', group, scope);

const fileMeasures: readonly (readonly [name: string, of: Measured])[] = [
  ['lines', count('lines')],
  ['buildings', count('buildings')],
  ['building_count_not_on_record', count('countUnknown')],
  ['wall_area_m2', area('areaM2', 'areaUnknown')],
  ['wall_area_not_on_record', count('areaUnknown')],
  ['index_weighted_area_m2', area('weightedM2', 'weightedUnknown')],
  ['index_weighted_area_not_on_record', count('weightedUnknown')],
  ['insured_value', value],
  ['insured_value_not_on_record', count('valueUnknown')],
];

/** What each scope adds to a column's name. */
const scopeSuffix: Readonly<Record<Scope, string>> = {
  all: '',
  low: '_first_two_tiers_leaning_low',
  mean: '_first_two_tiers',
  high: '_first_two_tiers_leaning_high',
};

/**
 * The crossing as CSV, one row for each combination that occurs: what divides it, the currency, then every measure over
 * all lines and over the first two tiers. Each line is in exactly one row, so that rows add up; there are no rows of
 * totals. The last two columns carry the filter and the caution.
 */
export function pivotCsv(
  { dimensions, levels, sums }: Crossing,
  words: ExposureView['words'],
  { filter, units }: Told,
): string {
  const measured = scopes.flatMap((scope) =>
    fileMeasures.map(([name, of]) => ({
      name: `${units === 'american' ? name.replace('_m2', '_ft2') : name}${scopeSuffix[scope]}`,
      cell: (group: number) => of(sums, group, scope, units),
    })),
  );
  const heads = [...dimensions, ...measured.map(({ name }) => name), 'filter', 'caution'];
  const rows = Array.from({ length: sums.n }, (_, group) => [
    ...dimensions.map((dimension, d) => levelWord(words, dimension, levels[d]![group]!, units)),
    ...measured.map(({ cell }) => cell(group)),
    filter || 'all lines',
    'SCREENING-NOT-DIAGNOSIS',
  ]);
  return csvText([heads, ...rows]);
}
