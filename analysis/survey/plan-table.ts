import type { SelectedUnit } from '../sample/types.ts';
import { tiers } from '../session-types.ts';
import { inUnits, type QuantityName, type UnitSystem } from '../units.ts';
import { softwareName } from '../version.ts';
import type { FieldUnit } from './draw.ts';
import { draftWord, type ShownPlan } from './plan-standing.ts';

export type Cell = string | number | null;

/** A unit of the plan with what is known of its wall. */
export interface PlanLine {
  readonly line: number;
  readonly unit: SelectedUnit;
  readonly field: FieldUnit;
}

export const planLines = ({ plan, field }: Pick<ShownPlan, 'plan' | 'field'>): PlanLine[] =>
  plan.units.map((unit, i) => ({ line: i + 1, unit, field: field[i]! }));

/** A chance or weight, null where the unit has none of its own. */
export const known = (value: number | null): number | null =>
  value === null || Number.isNaN(value) ? null : value;

/** `7`, or `replacement 2`. */
export const turnWord = ({ unit }: PlanLine): string =>
  unit.replacementOrder === null ? 'selected' : `replacement ${unit.replacementOrder}`;

interface Column {
  readonly name: string;
  readonly american?: readonly [name: string, quantity: QuantityName];
  readonly of: (line: PlanLine, shown: ShownPlan) => Cell;
}

const ofWall = (name: string, american?: Column['american']): Column => ({
  name,
  ...(american && { american }),
  of: ({ field }) => field.wall[name] ?? null,
});

const tierOf: Column['of'] = ({ field }, { plan }) => {
  const tier = field.wall[plan.unit === 'wall' ? 'tier' : 'building_tier'];
  return typeof tier === 'number' ? (tiers[tier] ?? null) : null;
};

const columns: readonly Column[] = [
  { name: 'plan_id', of: (_, { plan }) => plan.head.planId },
  { name: 'plan_status', of: (_, { locked }) => (locked ? 'locked' : draftWord) },
  { name: 'plan_sha256', of: (_, { locked }) => locked?.digest ?? null },
  { name: 'line', of: ({ line }) => line },
  { name: 'unit', of: (_, { plan }) => plan.unit },
  { name: 'unit_id', of: ({ unit }) => unit.id },
  { name: 'turn', of: turnWord },
  { name: 'replacement_order', of: ({ unit }) => unit.replacementOrder },
  { name: 'stratum', of: ({ unit }) => unit.stratum },
  { name: 'probability', of: ({ unit }) => known(unit.probability) },
  { name: 'weight', of: ({ unit }) => known(unit.weight) },
  { name: 'certainty', of: ({ unit }) => (unit.certainty ? 'yes' : 'no') },
  { name: 'replicate', of: ({ unit }) => unit.replicate },
  ...['building_id', 'name', 'address', 'city', 'region', 'latitude', 'longitude'].map((name) =>
    ofWall(name),
  ),
  ...['wall_id', 'azimuth_deg', 'material', 'installed', 'drainage', 'sheathing'].map((name) =>
    ofWall(name),
  ),
  ofWall('area_m2', ['area_ft2', 'area']),
  ofWall('height_m', ['height_ft', 'height']),
  ofWall('wetting_l_m2', ['wetting_gal_ft2', 'wetting']),
  ...['index', 'index_low', 'index_high'].map((name) => ofWall(name)),
  { name: 'tier', of: tierOf },
  { name: 'control_wall_id', of: ({ field }) => field.control.wallId },
  { name: 'control_reason', of: ({ field }) => field.control.says },
  {
    name: 'control_probability',
    of: ({ field }) => (field.control.wallId === null ? null : 'none'),
  },
  { name: 'software', of: () => softwareName },
  { name: 'caution', of: () => 'SCREENING-NOT-DIAGNOSIS' },
];

/** The plan as a table: one row a unit, with everything that is known of it, in the units asked for. */
export function planTable(
  shown: ShownPlan,
  units: UnitSystem,
): { heads: readonly string[]; rows: readonly (readonly Cell[])[] } {
  const other = ({ american }: Column) => (units === 'american' ? american : undefined);
  const cellOf = (column: Column, line: PlanLine): Cell => {
    const value = column.of(line, shown);
    const quantity = other(column)?.[1];
    return quantity && typeof value === 'number' ? inUnits(value, quantity, units) : value;
  };
  return {
    heads: columns.map((column) => other(column)?.[0] ?? column.name),
    rows: planLines(shown).map((line) => columns.map((column) => cellOf(column, line))),
  };
}
