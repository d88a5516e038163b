import { defaultRequest, type SelectionRequest } from '../../analysis/sample/request.ts';
import type { SampleUnit } from '../../analysis/sample/types.ts';
import type { Analyst } from '../../analysis/session-types.ts';
import type { LockedPlan } from '../../analysis/survey/plan-standing.ts';
import { inputs, session } from '../session/open.ts';

const towns = [
  [47.6, -122.3],
  [30.7, -88.0],
  [42.4, -71.1],
  [36.2, -86.8],
] as const;

/** Sixty buildings with two walls each, in four towns; wall `a` is clad in stucco over two papers, `b` in fibre cement. */
export async function portfolio(): Promise<Analyst> {
  const ids = Array.from({ length: 60 }, (_, i) => `B${String(i).padStart(2, '0')}`);
  const buildings = ids.map((id, i) => {
    const [latitude, longitude] = towns[i % towns.length]!;
    return `${id},${latitude + i / 1000},${longitude},${1975 + (i % 40)},${6 + (i % 20)}`;
  });
  const walls = ids.flatMap((id, i) => [
    `${id},a,${(i * 40) % 360},stucco,${80 + i},double_paper,osb`,
    `${id},b,${(i * 40 + 180) % 360},fiber_cement,60,,osb`,
  ]);
  const analyst = await session();
  await analyst.open(
    inputs(
      `building_id,latitude,longitude,year_built,height_m\n${buildings.join('\n')}\n`,
      `building_id,wall_id,azimuth_deg,material,area_m2,drainage,sheathing\n${walls.join('\n')}\n`,
    ),
  );
  return analyst;
}

/** A plan drawn and locked. */
export async function locked(
  analyst: Analyst,
  planId: string,
  more: Partial<SelectionRequest> = {},
  unit: SampleUnit = 'wall',
): Promise<LockedPlan> {
  const head = {
    planId,
    population: 'every scored wall',
    frameDate: '2026-04-01',
    chosenBy: 'I. Marlowe',
    chosenOn: '2026-04-02',
    software: 'Rainledger',
    inputs: {},
    costs: {},
    sizeReason: 'a test',
  };
  const drawn = await analyst.draw(
    { query: { by: 'index' }, unit },
    { ...defaultRequest, ...more },
    head,
  );
  if (!drawn.ok) throw new Error(drawn.says.join(' '));
  const { plan, digest, field } = drawn;
  return { plan, digest, field, lockedAt: '2026-04-03T08:00:00.000Z' };
}
