import { type Columns, numbers, texts } from '../columns.ts';
import type { Constants } from '../constants.ts';
import type { Engine } from '../engine/port.ts';
import { type Calibration, calibrate, calibratedChance } from '../findings/calibrate.ts';
import { learnedWalls } from '../findings/learn-from.ts';
import { outlineOf, type PlanOutline } from '../findings/plan.ts';
import type { Predictors } from '../findings/scale.ts';
import { type Undecided, undecidedByInterval, undecidedByLearning } from '../findings/undecided.ts';
import type { SamplingPlan } from '../sample/plan.ts';
import { seeded } from '../sample/random.ts';
import { rowsByUnit } from './draw.ts';
import { surveyWalls, unitId } from './walls.ts';

/** What findings teach: the calibration, and which walls would settle most if they were opened next. */
export interface Learnt {
  readonly calibration: Calibration;
  /** Chance of softened or decayed sheathing by unit id, where the calibration has earned to be shown; else empty. */
  readonly chances: Readonly<Record<string, number>>;
  /** Most worth opening first; by learning where it is shown, else by the width of the index. */
  readonly undecided: readonly (Undecided & { readonly building: string; readonly wall: string })[];
  readonly byLearning: boolean;
}

/** Walls listed as most undecided. */
const listed = 100;

/** The outline of a plan for inference: which wall a unit stands for is part of its id. */
export function outlineFrom(plan: SamplingPlan): PlanOutline {
  const named = { planId: plan.head.planId, unit: plan.unit, design: plan.design };
  const wallOf = ({ id, cluster }: { readonly id: string; readonly cluster: string }) =>
    plan.unit === 'wall' ? id.slice(unitId(cluster, '').length) : null;
  return outlineOf(named, plan, wallOf);
}

/** Learns from all plans together; `findings` are those on record. */
export async function learnFrom(
  engine: Engine,
  plans: readonly SamplingPlan[],
  findings: Columns,
  constants: Constants,
): Promise<Learnt> {
  const walls = await surveyWalls(engine);
  const rows = rowsByUnit(walls);
  const predictors = (row: number): Predictors => ({
    w: numbers(walls, 'w')[row]!,
    d: numbers(walls, 'd')[row]!,
    s: numbers(walls, 's')[row]!,
  });
  const learned = plans
    .filter(({ probabilitySample }) => probabilitySample)
    .flatMap((plan) =>
      learnedWalls(outlineFrom(plan), findings, (id) => {
        const row = rows.get(id);
        return row === undefined ? null : predictors(row);
      }),
    );
  const calibration = calibrate(learned, seeded(1));
  const opened = openedWalls(findings);
  const open = Array.from({ length: walls.n }, (_, i) => i).filter(
    (i) => !opened.has(idOf(walls, i)),
  );
  const thresholds = ['tier_first_look', 'tier_next_look', 'tier_keep_watch'].map(
    (name) => constants[name]!,
  );
  const candidates = open.map((i) => ({
    unit: idOf(walls, i),
    index: numbers(walls, 'index')[i]!,
    low: numbers(walls, 'index_low')[i]!,
    high: numbers(walls, 'index_high')[i]!,
    ...predictors(i),
  }));
  const model = calibration.shown ? calibration.learning!.model : null;
  const undecided = model
    ? undecidedByLearning(model, candidates, thresholds)
    : undecidedByInterval(candidates, thresholds);
  return {
    calibration,
    chances: model ? chancesOf(candidates, (wall) => calibratedChance(model, wall)) : {},
    undecided: undecided.slice(0, listed).map((one) => {
      const row = rows.get(one.unit)!;
      const building = texts(walls, 'building_id')[row]!;
      return { ...one, building, wall: texts(walls, 'wall_id')[row]! };
    }),
    byLearning: model !== null,
  };
}

const idOf = (walls: Columns, i: number): string =>
  unitId(texts(walls, 'building_id')[i]!, texts(walls, 'wall_id')[i]!);

function chancesOf(
  walls: readonly (Predictors & { readonly unit: string })[],
  chance: (wall: Predictors) => number | null,
): Record<string, number> {
  const found = walls.flatMap((wall): [string, number][] => {
    const p = chance(wall);
    return p === null ? [] : [[wall.unit, p]];
  });
  return Object.fromEntries(found);
}

/** Walls whose sheathing an opening has shown. */
function openedWalls(findings: Columns): Set<string> {
  const seen = texts(findings, 'sheathing_seen');
  const buildings = texts(findings, 'building_id');
  const names = texts(findings, 'wall_id');
  return new Set(
    Array.from({ length: findings.n }, (_, i) => i)
      .filter((i) => seen[i] === 'yes')
      .map((i) => unitId(buildings[i]!, names[i]!)),
  );
}
