import { type Columns, rowObject } from '../columns.ts';
import type { Engine } from '../engine/port.ts';
import { type PlanHead, planDigest, planOf, type SamplingPlan } from '../sample/plan.ts';
import type { SelectionRequest } from '../sample/request.ts';
import { select } from '../sample/select.ts';
import { strataTable, stratify } from '../sample/strata.ts';
import type { Outcome, StratumField, StratumRow } from '../sample/types.ts';
import type { Sifter } from '../sift/order.ts';
import { type Control, controlFor } from './pair.ts';
import { type PopulationQuery, type Surveyed, surveyed, unitId } from './walls.ts';

/** The strata that fields make of a population. */
export interface StrataView {
  readonly units: number;
  readonly buildings: number;
  readonly rows: readonly StratumRow[];
  readonly merged: readonly (readonly string[])[];
}

/** A wall of the plan as the people who open it know it. */
export interface FieldUnit {
  /** Id of the unit of the plan. */
  readonly unit: string;
  /** Building and wall: columns of the survey (building_id, name, address, wall_id, material, azimuth_deg, …). */
  readonly wall: Readonly<Record<string, number | string | null>>;
  readonly control: Control;
}

export interface DrawnPlan {
  readonly plan: SamplingPlan;
  /** SHA-256 that locks the plan. */
  readonly digest: string;
  readonly field: readonly FieldUnit[];
}

export async function strataOf(
  engine: Engine,
  sifter: Sifter,
  asked: PopulationQuery,
  fields: readonly StratumField[],
): Promise<StrataView> {
  const { population } = await surveyed(engine, sifter, asked);
  const all = Int32Array.from({ length: population.n }, (_, i) => i);
  const strata = stratify(population, all, fields);
  return {
    units: population.n,
    buildings: new Set(population.cluster).size,
    rows: population.n > 0 ? strataTable(strata, population) : [],
    merged: strata.merged,
  };
}

/** Draws a sample and makes its plan. What the user's input spoils comes back as sentences. */
export async function drawPlan(
  engine: Engine,
  sifter: Sifter,
  asked: PopulationQuery,
  request: SelectionRequest,
  head: PlanHead,
): Promise<Outcome<DrawnPlan>> {
  const found = await surveyed(engine, sifter, asked);
  const drawn = select(found.population, request);
  if (!drawn.ok) return drawn;
  const plan = planOf(head, asked.unit, request, drawn.selection, drawn.says);
  const field = plan.units.map(({ unit, id }) => fieldUnit(found, unit, id));
  return { ok: true, says: drawn.says, plan, digest: planDigest(plan), field };
}

const fieldUnit = ({ walls, rows }: Surveyed, unit: number, id: string): FieldUnit => ({
  unit: id,
  wall: rowObject(walls, rows[unit]!),
  control: controlFor(walls, rows[unit]!),
});

/** Walls of the survey by the id of their unit, for what is learnt from findings. */
export function rowsByUnit(walls: Columns): Map<string, number> {
  const found = new Map<string, number>();
  for (let i = 0; i < walls.n; i += 1) {
    const { building_id, wall_id, sets_index } = rowObject(walls, i);
    found.set(unitId(`${building_id}`, `${wall_id}`), i);
    if (sets_index === 1) found.set(`${building_id}`, i);
  }
  return found;
}
