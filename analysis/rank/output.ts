import { tiers } from '../session-types.ts';
import { inUnits, type QuantityName, type UnitSystem } from '../units.ts';
import { type RankingRow, reason, unknownFacts } from './reason.ts';

const caution = 'SCREENING-NOT-DIAGNOSIS';

type Value = number | string | null;
export type OutputRow = Readonly<Record<string, Value>>;

interface OutputColumn {
  /** Name in the contract, which is metric. */
  readonly name: string;
  /** What it measures, where American sheets use another unit. */
  readonly quantity?: QuantityName;
  /** How the value is made, where it is not simply the column of `ranking`. */
  readonly value?: (row: RankingRow, units: UnitSystem) => Value;
}

const tierName =
  (column: string) =>
  (row: RankingRow): Value =>
    tiers[row[column] as number] ?? null;

/** The output columns of the contract, in order. */
const outputColumns: readonly OutputColumn[] = [
  { name: 'rank' },
  { name: 'building_id' },
  { name: 'name' },
  { name: 'latitude' },
  { name: 'longitude' },
  { name: 'place_source' },
  { name: 'rain_mm', quantity: 'rain' },
  { name: 'rain_low_mm', quantity: 'rain' },
  { name: 'rain_high_mm', quantity: 'rain' },
  { name: 'p_rain_over_threshold' },
  { name: 'rain_source' },
  { name: 'rain_period' },
  { name: 'rain_flag' },
  { name: 'wall_id' },
  { name: 'material' },
  { name: 'wetting_l_m2', quantity: 'wetting' },
  { name: 'drainage_state' },
  { name: 'need_code_then' },
  { name: 'need_code_now' },
  { name: 'need_practice' },
  { name: 'index' },
  { name: 'index_low' },
  { name: 'index_high' },
  { name: 'index_spread' },
  { name: 'tier', value: tierName('tier') },
  { name: 'tier_low', value: tierName('tier_low') },
  { name: 'tier_high', value: tierName('tier_high') },
  { name: 'index_weighted_area_m2', quantity: 'area' },
  { name: 'insured_value' },
  { name: 'currency' },
  { name: 'reason', value: reason },
  { name: 'unknowns', value: (row) => unknownFacts(row).join(';') },
  { name: 'caution', value: () => caution },
];

/** Column names as they stand in a file: `rain_mm` becomes `rain_in` on an American sheet. */
export function outputName(column: OutputColumn, units: UnitSystem): string {
  if (units === 'metric' || !column.quantity) return column.name;
  return column.name.replace(/_(l_m2|mm|m2)$/, `_${suffix[column.quantity]}`);
}

const suffix: Readonly<Record<QuantityName, string>> = {
  rain: 'in',
  gap: 'in',
  wetting: 'gal_ft2',
  area: 'ft2',
  height: 'ft',
};

/** The cells of one row, in the order of the columns. */
export const outputCells = (row: RankingRow, units: UnitSystem): Value[] =>
  outputColumns.map((column) => cellOf(column, row, units));

/** One row of the ranking as it is shown and exported: metric names on screen, named units in a file. */
export function outputRow(row: RankingRow, units: UnitSystem, name = outputName): OutputRow {
  const cells = outputColumns.map((column) => [name(column, units), cellOf(column, row, units)]);
  return Object.fromEntries(cells);
}

function cellOf(column: OutputColumn, row: RankingRow, units: UnitSystem): Value {
  if (column.value) return column.value(row, units);
  const value = row[column.name] ?? null;
  if (!column.quantity || typeof value !== 'number') return value;
  return units === 'metric' ? value : inUnits(value, column.quantity, units);
}
