import type { ExposureColumns } from './types.ts';

/**
 * What is summed of a group of lines. Money and areas are summed as whole hundredths, so that the order of the lines
 * does not matter and parts add up to their total.
 */
export const measures = [
  /** Rows of the ranking. */
  'lines',
  /** Buildings they stand for: the count on record, 1 where there is none. */
  'buildings',
  /** Lines without a count. */
  'countUnknown',
  /** Area of the scored walls, m², of the lines where it is known; and the lines where it is not. */
  'areaM2',
  'areaUnknown',
  /** Index-weighted area, m², likewise. */
  'weightedM2',
  'weightedUnknown',
  /** Insured value in the currency asked for, and the lines that have it. */
  'value',
  'valued',
  /** Lines with a value in another currency, and lines without a value. */
  'valuedElsewhere',
  'valueUnknown',
] as const;
export type Measure = (typeof measures)[number];

/**
 * Every measure is summed four times: over all lines, and over those in the first two tiers with all priors leaning low,
 * as scored, and with all priors leaning high.
 */
export const scopes = ['all', 'low', 'mean', 'high'] as const;
export type Scope = (typeof scopes)[number];

/** Sums of n groups: measure `m` of group g in scope s stands at `[g × 4 + s]`. */
export type SumTable = Readonly<Record<Measure, Float64Array>> & { readonly n: number };

/** One figure of a table. */
export const sumAt = (table: SumTable, measure: Measure, group: number, scope: Scope): number =>
  table[measure][group * scopes.length + scopes.indexOf(scope)]!;

/** Which currency values are summed in: a code, or each line's own. */
export type ValueIn = number | 'own';

/** Sums under way, laid out as in `SumTable`: whole numbers, money in two parts that lose no digit below 1e8 lines. */
export type Tally = Readonly<
  Record<Exclude<Measure, 'value'> | 'valueHigh' | 'valueLow', Float64Array>
>;

const part = 2 ** 26;
const hundredths = (amount: number): number => Math.round(amount * 100);
const tallied = [
  ...measures.filter((measure) => measure !== 'value'),
  'valueHigh',
  'valueLow',
] as const;

const emptyTally = (groups: number): Tally =>
  Object.fromEntries(
    tallied.map((name) => [name, new Float64Array(groups * scopes.length)]),
  ) as Tally;

/**
 * Tallies of lines by group.
 * @param group of each line of `shown`
 */
export function tally(
  columns: ExposureColumns,
  shown: Int32Array,
  group: Int32Array,
  groups: number,
  valueIn: ValueIn,
): Tally {
  const sums = emptyTally(groups);
  for (let i = 0; i < shown.length; i++) {
    const b = shown[i]!;
    const at = group[i]! * scopes.length;
    add(sums, at, columns, b, valueIn);
    if (columns.tierLow[b]! <= 1) add(sums, at + 1, columns, b, valueIn);
    if (columns.tier[b]! <= 1) add(sums, at + 2, columns, b, valueIn);
    if (columns.tierHigh[b]! <= 1) add(sums, at + 3, columns, b, valueIn);
  }
  return sums;
}

/** Tallies of groups as tallies of groups of groups: nothing is rounded on the way. */
export function rolledUp(sums: Tally, group: Int32Array, groups: number): Tally {
  const rolled = emptyTally(groups);
  for (const name of tallied) {
    const [from, to] = [sums[name], rolled[name]];
    for (let i = 0; i < from.length; i++) {
      const scope = i % scopes.length;
      to[group[(i - scope) / scopes.length]! * scopes.length + scope]! += from[i]!;
    }
  }
  return rolled;
}

/** Buildings that a line stands for: its count on record, one where there is none. */
export const buildingsIn = (count: number): number => (Number.isNaN(count) ? 1 : Math.round(count));

function add(sums: Tally, at: number, columns: ExposureColumns, b: number, valueIn: ValueIn) {
  sums.lines[at]!++;
  const count = columns.buildingCount[b]!;
  if (Number.isNaN(count)) sums.countUnknown[at]!++;
  sums.buildings[at]! += buildingsIn(count);
  addArea(sums.areaM2, sums.areaUnknown, at, columns.wallAreaM2[b]!);
  addArea(sums.weightedM2, sums.weightedUnknown, at, columns.weightedAreaM2[b]!);
  addValue(sums, at, columns, b, valueIn);
}

function addArea(sum: Float64Array, unknown: Float64Array, at: number, m2: number): void {
  if (Number.isNaN(m2)) unknown[at]!++;
  else sum[at]! += hundredths(m2);
}

function addValue(sums: Tally, at: number, columns: ExposureColumns, b: number, valueIn: ValueIn) {
  const value = columns.insuredValue[b]!;
  if (Number.isNaN(value)) {
    sums.valueUnknown[at]!++;
  } else if (valueIn !== 'own' && columns.currency.codes[b] !== valueIn) {
    sums.valuedElsewhere[at]!++;
  } else {
    const cents = hundredths(value);
    const high = Math.floor(cents / part);
    sums.valued[at]!++;
    sums.valueHigh[at]! += high;
    sums.valueLow[at]! += cents - high * part;
  }
}

/** Hundredths as units again. A sum of more than 2⁵³ hundredths is the double nearest to it. */
export function published({ valueHigh, valueLow, areaM2, weightedM2, ...rest }: Tally): SumTable {
  return {
    n: valueHigh.length / scopes.length,
    ...rest,
    areaM2: areaM2.map((sum) => sum / 100),
    weightedM2: weightedM2.map((sum) => sum / 100),
    value: valueHigh.map((high, i) => (high * part + valueLow[i]!) / 100),
  };
}

/** Values summed in bins, each bin exact as above. */
export function binnedValues(bins: number): {
  add(bin: number, value: number): void;
  fromTop(): Float64Array;
} {
  const high = new Float64Array(bins);
  const low = new Float64Array(bins);
  return {
    add(bin, value) {
      const cents = hundredths(value);
      const whole = Math.floor(cents / part);
      high[bin]! += whole;
      low[bin]! += cents - whole * part;
    },
    /** Sum of each bin and all above it. */
    fromTop() {
      for (let bin = bins - 2; bin >= 0; bin--) {
        high[bin]! += high[bin + 1]!;
        low[bin]! += low[bin + 1]!;
      }
      return high.map((sum, bin) => (sum * part + low[bin]!) / 100);
    },
  };
}
