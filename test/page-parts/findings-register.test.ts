import { beforeAll, describe, expect, it } from 'vitest';
import { memorySource } from '../../analysis/read/memory-source.ts';
import type { Analyst } from '../../analysis/session-types.ts';
import type { FindingsView } from '../../analysis/survey/findings.ts';
import type { LockedPlan } from '../../analysis/survey/plan-standing.ts';
import { belongingIn } from '../../dashboard/findings/belonging.ts';
import { findBuilding, offerBuildings } from '../../dashboard/findings/find-building.ts';
import { findingsCsv } from '../../dashboard/findings/finding-csv.ts';
import { plannedWalls } from '../../dashboard/findings/planned-walls.ts';
import { registerOf } from '../../dashboard/findings/register.ts';
import { type LoggedFinding, loggedName } from '../../dashboard/state/survey.ts';
import { locked, portfolio } from './findings-scene.ts';

const opened = { method: 'opening', sheathing_seen: 'yes', condition: 'sound' };

describe('the register of findings', () => {
  let analyst: Analyst;
  let plan: LockedPlan;
  let byBuilding: LockedPlan;
  beforeAll(async () => {
    analyst = await portfolio();
    plan = await locked(analyst, 'P', { openings: 12, replacementsPerStratum: 2 });
    byBuilding = await locked(analyst, 'H', { openings: 5 }, 'building');
  });
  const walls = () => plannedWalls(plan);
  const cellsOn = (wall: { building: string; wall: string }, plan_id: string | null = 'P') => ({
    ...opened,
    building_id: wall.building,
    wall_id: wall.wall,
    plan_id,
  });

  it('every unit of a plan is offered once, then replacements, then sheltered walls that no unit is', () => {
    expect(
      walls()
        .filter(({ control }) => !control)
        .map(({ unit }) => unit),
    ).toEqual(plan.plan.units.map(({ id }) => id));
    const places = walls().map(({ building, wall }) => `${building} ${wall}`);
    expect(new Set(places).size).toBe(places.length);
  });

  it('a finding that names the plan and one of its walls belongs to it', () => {
    const belonging = belongingIn([plan]);
    const [first] = walls();
    expect(belonging(cellsOn(first!))).toMatchObject({
      kind: 'selected',
      says: 'plan P, selected',
    });
    const spare = walls().find(({ replacementOrder }) => replacementOrder === 2)!;
    expect(belonging(cellsOn(spare)).says).toBe('plan P, replacement 2');
  });

  it('what belongs to no plan is opportunistic, and says why it is kept out', () => {
    const belonging = belongingIn([plan]);
    const [first] = walls();
    expect(belonging(cellsOn(first!, null)).says).toBe('opportunistic, kept out of the estimates');
    expect(belonging(cellsOn(first!, 'Q')).says).toBe(
      'names plan Q, which is not locked here, kept out of the estimates',
    );
    expect(belonging(cellsOn({ building: 'B00', wall: 'none such' })).says).toBe(
      'not a wall of plan P, kept out of the estimates',
    );
  });

  it('a meter reading on a selected wall belongs to the plan and answers nothing', () => {
    const cells = { ...cellsOn(walls()[0]!), method: 'moisture_meter', sheathing_seen: 'no' };
    expect(belongingIn([plan])(cells).says).toContain('answers nothing');
  });

  it('a plan without known chances bears no estimate, and its findings say so', async () => {
    const far = await locked(analyst, 'D', { openings: 4, minimumDistanceKm: 1 });
    const [first] = plannedWalls(far);
    expect(belongingIn([far])(cellsOn(first!, 'D')).says).toBe(
      'plan D, selected; the plan bears no estimate',
    );
  });

  it('of a plan of buildings, any wall of a selected building belongs', () => {
    const [first] = plannedWalls(byBuilding);
    const cells = cellsOn({ building: first!.building, wall: 'b' }, 'H');
    expect(belongingIn([plan, byBuilding])(cells)).toMatchObject({ planId: 'H', kind: 'selected' });
  });

  it('kept out is what the estimates keep out: the analysis counts the same rows', async () => {
    const rows = [
      ...walls().map((wall) => cellsOn(wall, wall.control ? null : 'P')),
      cellsOn({ building: 'B07', wall: 'a' }, 'Q'),
      cellsOn({ building: 'B08', wall: 'b' }, null),
    ];
    const view = await analyst.readFindings([memorySource('f.csv', findingsCsv(rows))]);
    const entries = registerOf(view, [], [plan]);
    const { response } = await analyst.infer(plan.plan, {});
    expect(entries.filter(({ belongs }) => belongs.planId === null)).toHaveLength(
      response.outsideRows,
    );
    expect(entries.filter(({ belongs }) => belongs.kind === 'selected')).toHaveLength(
      response.answered,
    );
    expect(entries.filter(({ belongs }) => belongs.kind === 'replacement')).toHaveLength(
      response.replacementsAnswered,
    );
  });

  it('what was struck out stays, and the reason of a row set aside stands at its own finding', () => {
    const logged = (id: string, struck: string | null): LoggedFinding => ({
      id,
      cells: { ...cellsOn(walls()[0]!), plan_id: 'P' },
      history: [],
      struck,
    });
    const remark = {
      file: loggedName,
      row: 3,
      column: '',
      value: '',
      code: 'orphan',
      message: 'no',
    };
    const view: FindingsView = {
      reports: [],
      rows: [],
      says: [],
      remarks: [{ ...remark, outcome: 'row set aside', table: null }],
    };
    const found = registerOf(
      view,
      [logged('F1', 'then'), logged('F2', null), logged('F3', null)],
      [],
    );
    expect(found.map(({ key, standing, reason }) => [key, standing, reason])).toEqual([
      ['F3', 'set aside', 'no'],
      ['F2', 'on record', null],
      ['F1', 'struck out', null],
    ]);
  });

  it('a building is found by its whole id among all whose ids hold it', async () => {
    expect(await findBuilding(analyst, 'B07')).toBe(7);
    expect(await findBuilding(analyst, 'B59')).toBe(59);
    expect(await findBuilding(analyst, 'B')).toBeNull();
    expect(await findBuilding(analyst, ' ')).toBeNull();
    expect((await offerBuildings(analyst, 'B0')).length).toBe(10);
  });
});
