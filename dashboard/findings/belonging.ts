import type { LockedPlan } from '../../analysis/survey/plan-standing.ts';
import type { Value } from '../parts/format.ts';
import { type PlannedWall, plannedWalls } from './planned-walls.ts';

type Cells = Readonly<Record<string, Value>>;

/** Which plan a finding belongs to. Only what names the plan and one of its walls enters an estimate. */
export interface Belonging {
  readonly kind: 'selected' | 'replacement' | 'comparison' | 'outside' | 'opportunistic';
  /** Plan and unit that it answers for; null outside. */
  readonly planId: string | null;
  readonly unit: string | null;
  /** In words. */
  readonly says: string;
}

const keptOut = 'kept out of the estimates';

/** Whether a finding shows the sheathing and says its condition: nothing else answers a plan. */
export const answers = (cells: Cells): boolean =>
  cells.sheathing_seen === 'yes' && Boolean(cells.condition);

const outside = (kind: Belonging['kind'], says: string): Belonging => ({
  kind,
  planId: null,
  unit: null,
  says: `${says}, ${keptOut}`,
});

function within(wall: PlannedWall, cells: Cells): Belonging {
  const { planId, unit, replacementOrder, byChance } = wall;
  const role = replacementOrder === null ? 'selected' : `replacement ${replacementOrder}`;
  const silent =
    cells.not_accessible === 'yes'
      ? '; could not be reached'
      : answers(cells)
        ? ''
        : '; shows no sheathing, so it answers nothing';
  return {
    kind: replacementOrder === null ? 'selected' : 'replacement',
    planId,
    unit,
    says: `plan ${planId}, ${role}${byChance ? '' : '; the plan bears no estimate'}${silent}`,
  };
}

const placeOf = (...parts: readonly Value[]): string => JSON.stringify(parts);

/** Finds what a finding belongs to, by plan_id, building_id and wall_id, as the estimates do. */
export function belongingIn(plans: readonly LockedPlan[]): (cells: Cells) => Belonging {
  const walls = plans.flatMap(plannedWalls);
  const chosen = walls.filter(({ control }) => !control);
  const places = new Map(
    chosen.map((one) => [placeOf(one.planId, one.building, one.byBuilding ? null : one.wall), one]),
  );
  const controls = new Set(
    walls.filter(({ control }) => control).map((one) => placeOf(one.building, one.wall)),
  );
  const known = new Set(plans.map(({ plan }) => plan.head.planId));
  return (cells) => {
    const { plan_id, building_id, wall_id } = cells;
    const wall =
      places.get(placeOf(plan_id, building_id, wall_id)) ??
      places.get(placeOf(plan_id, building_id, null));
    if (wall) return within(wall, cells);
    if (plan_id && !known.has(`${plan_id}`))
      return outside('outside', `names plan ${plan_id}, which is not locked here`);
    if (plan_id) return outside('outside', `not a wall of plan ${plan_id}`);
    if (controls.has(placeOf(building_id, wall_id)))
      return outside('comparison', 'sheltered wall, for comparison');
    return outside('opportunistic', 'opportunistic');
  };
}
