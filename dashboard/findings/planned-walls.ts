import type { SelectedUnit } from '../../analysis/sample/types.ts';
import type { FieldUnit } from '../../analysis/survey/draw.ts';
import type { LockedPlan } from '../../analysis/survey/plan-standing.ts';
import { facing } from '../parts/format.ts';
import { plainWord } from '../parts/words.ts';

/** A wall that a plan asks to be opened, or that is opened beside one for comparison. */
export interface PlannedWall {
  readonly planId: string;
  /** Id of the unit of the plan. */
  readonly unit: string;
  readonly building: string;
  readonly wall: string;
  /** Whether any wall of the building answers for the unit. */
  readonly byBuilding: boolean;
  readonly replacementOrder: number | null;
  /** Whether the plan bears an estimate: every unit of its frame had a known chance. */
  readonly byChance: boolean;
  /** Sheltered wall: chosen on purpose, in no estimate. */
  readonly control: boolean;
  /** Name, cladding and direction, in words. */
  readonly about: string;
}

type WallColumns = FieldUnit['wall'];

const aboutWall = (wall: WallColumns): string =>
  [
    wall.name,
    wall.material && plainWord(`${wall.material}`),
    typeof wall.azimuth_deg === 'number' && `faces ${facing(wall.azimuth_deg)}`,
  ]
    .filter(Boolean)
    .join(', ');

function selected(locked: LockedPlan, unit: SelectedUnit, wall: WallColumns): PlannedWall {
  const { plan } = locked;
  return {
    planId: plan.head.planId,
    unit: unit.id,
    building: unit.cluster,
    wall: `${wall.wall_id ?? ''}`,
    byBuilding: plan.unit === 'building',
    replacementOrder: unit.replacementOrder,
    byChance: plan.probabilitySample,
    control: false,
    about: aboutWall(wall),
  };
}

/** The walls of a plan, each once: those selected, their replacements, then the sheltered walls beside them. */
export function plannedWalls(locked: LockedPlan): PlannedWall[] {
  const fields = new Map(locked.field.map((one) => [one.unit, one]));
  const units = [...new Map(locked.plan.units.map((unit) => [unit.id, unit])).values()];
  const walls = units.flatMap((unit) => {
    const field = fields.get(unit.id);
    return field ? [selected(locked, unit, field.wall)] : [];
  });
  const taken = new Set(walls.map(({ building, wall }) => JSON.stringify([building, wall])));
  const controls = walls.flatMap((one): PlannedWall[] => {
    const wall = fields.get(one.unit)?.control.wallId ?? null;
    const known = wall === null || taken.has(JSON.stringify([one.building, wall]));
    if (known) return [];
    taken.add(JSON.stringify([one.building, wall]));
    return [{ ...one, wall, control: true, about: `beside ${one.wall}` }];
  });
  return [...walls, ...controls];
}
