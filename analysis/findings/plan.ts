import type { Selection } from '../sample/select.ts';
import type { Design, SampleUnit, SelectedUnit, StratumRow } from '../sample/types.ts';

/** A unit of the plan and where it is to be opened. */
export interface PlannedUnit extends SelectedUnit {
  /** The wall of building `cluster` that is opened; null where any of its walls answers for it. */
  readonly wall: string | null;
}

/** What an estimate needs to know of the plan that it rests on. */
export interface PlanOutline {
  /** As the findings name it under plan_id. */
  readonly planId: string;
  readonly unit: SampleUnit;
  readonly design: Design;
  /** The frame: every stratum, selected from or not. */
  readonly strata: readonly Pick<StratumRow, 'stratum' | 'units' | 'areaM2' | 'areaUnknown'>[];
  readonly units: readonly PlannedUnit[];
  /** Whether every unit of the frame had a known chance above 0: else nothing is said of the whole. */
  readonly probabilitySample: boolean;
}

/** The outline of a selection that was made under this name; `wallOf` says which wall of its building a unit is. */
export const outlineOf = (
  named: Pick<PlanOutline, 'planId' | 'unit' | 'design'>,
  { units, strata, probabilitySample }: Pick<Selection, 'units' | 'strata' | 'probabilitySample'>,
  wallOf: (unit: SelectedUnit) => string | null,
): PlanOutline => ({
  ...named,
  strata,
  probabilitySample,
  units: units.map((unit) => ({ ...unit, wall: wallOf(unit) })),
});

/** Area of the frame, m²: units without one on record are taken to be like the others of their stratum. */
export function frameArea({ strata }: PlanOutline): number {
  const known = strata.filter(({ units, areaUnknown }) => units > areaUnknown);
  const area = known.reduce((sum, { areaM2 }) => sum + areaM2, 0);
  const measured = known.reduce((sum, { units, areaUnknown }) => sum + units - areaUnknown, 0);
  const all = strata.reduce((sum, { units }) => sum + units, 0);
  return known.length === strata.length
    ? known.reduce(
        (sum, { areaM2, units, areaUnknown }) => sum + (areaM2 * units) / (units - areaUnknown),
        0,
      )
    : (area * all) / measured;
}
