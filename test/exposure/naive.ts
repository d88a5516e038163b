import { eraBands, heightBands } from '../../analysis/bands.ts';
import type { Measure, Scope } from '../../analysis/exposure/sums.ts';
import type { Dimension, ExposureColumns } from '../../analysis/exposure/types.ts';

/** One line as an object, levels in words: the slow way, for comparison. */
export interface Line {
  readonly b: number;
  readonly level: Readonly<Record<Dimension, number>>;
  readonly tiers: Readonly<Record<Exclude<Scope, 'all'>, number>>;
  readonly value: number | null;
  readonly count: number | null;
  readonly area: number | null;
  readonly weighted: number | null;
}

const orNull = (value: number): number | null => (Number.isNaN(value) ? null : value);

const bandAt = (value: number, bands: readonly { from?: number; below?: number }[]): number =>
  bands.findIndex(
    ({ from = Number.NEGATIVE_INFINITY, below = Number.POSITIVE_INFINITY }) =>
      value >= from && value < below,
  );

export const linesOf = (c: ExposureColumns, shown: Int32Array): Line[] =>
  Array.from(shown, (b) => ({
    b,
    level: {
      tier: c.tier[b]!,
      region: c.region.codes[b]!,
      material: c.material.codes[b]!,
      currency: c.currency.codes[b]!,
      height: bandAt(c.heightM[b]!, heightBands),
      era: bandAt(c.installed[b]!, eraBands),
    },
    tiers: { low: c.tierLow[b]!, mean: c.tier[b]!, high: c.tierHigh[b]! },
    value: orNull(c.insuredValue[b]!),
    count: orNull(c.buildingCount[b]!),
    area: orNull(c.wallAreaM2[b]!),
    weighted: orNull(c.weightedAreaM2[b]!),
  }));

export const inScope = (lines: readonly Line[], scope: Scope): readonly Line[] =>
  scope === 'all' ? lines : lines.filter(({ tiers }) => tiers[scope] <= 1);

/** Whole hundredths as arbitrarily long integers: no order of addition can matter. */
const total = (amounts: readonly (number | null)[]): number => {
  const sum = amounts.reduce((all, x) => all + BigInt(Math.round((x ?? 0) * 100)), 0n);
  return Number(sum) / 100;
};

const blank = (values: readonly (number | null)[]): number =>
  values.filter((value) => value === null).length;

/** Every measure of these lines, values in one currency or each in its own. */
export function sumsOf(
  lines: readonly Line[],
  currency: number | 'own',
): Readonly<Record<Measure, number>> {
  const withValue = lines.filter(({ value }) => value !== null);
  const inCurrency = withValue.filter(
    ({ level }) => currency === 'own' || level.currency === currency,
  );
  return {
    lines: lines.length,
    buildings: lines.reduce((sum, { count }) => sum + (count ?? 1), 0),
    countUnknown: blank(lines.map(({ count }) => count)),
    areaM2: total(lines.map(({ area }) => area)),
    areaUnknown: blank(lines.map(({ area }) => area)),
    weightedM2: total(lines.map(({ weighted }) => weighted)),
    weightedUnknown: blank(lines.map(({ weighted }) => weighted)),
    value: total(inCurrency.map(({ value }) => value)),
    valued: inCurrency.length,
    valuedElsewhere: withValue.length - inCurrency.length,
    valueUnknown: lines.length - withValue.length,
  };
}
