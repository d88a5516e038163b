import { type Calibration, gates } from '../../analysis/findings/calibrate.ts';
import type { LockedPlan } from '../../analysis/survey/plan-standing.ts';
import { counted, digits } from '../parts/format.ts';
import { answers } from './belonging.ts';
import type { Entry } from './register.ts';

/** Opened units of samples drawn by chance, for whatever they may teach. */
export interface SoFar {
  readonly findings: number;
  readonly buildings: number;
  readonly softened: number;
  readonly firm: number;
}

const softenedWord = (condition: unknown): boolean =>
  condition === 'softened' || condition === 'decayed';

/** Counts what the plans that were drawn by chance have brought in so far: units, each once, the worst of each. */
export function soFar(entries: readonly Entry[], plans: readonly LockedPlan[]): SoFar {
  const byChance = new Set(
    plans.filter(({ plan }) => plan.probabilitySample).map(({ plan }) => plan.head.planId),
  );
  const units = new Map<string, boolean>();
  const buildings = new Set<unknown>();
  for (const { belongs, cells, standing } of entries) {
    const { kind, planId, unit } = belongs;
    if (standing !== 'on record' || kind !== 'selected' || !answers(cells)) continue;
    if (!byChance.has(planId ?? '')) continue;
    const key = JSON.stringify([planId, unit]);
    units.set(key, (units.get(key) ?? false) || softenedWord(cells.condition));
    buildings.add(cells.building_id);
  }
  const softened = [...units.values()].filter(Boolean).length;
  return {
    findings: units.size,
    buildings: buildings.size,
    softened,
    firm: units.size - softened,
  };
}

/** One condition under which something is learnt or shown. */
interface Gate {
  readonly asks: string;
  readonly has: string;
  /** What is missing, in words; null where it is met. */
  readonly missing: string | null;
}

const countGate = (asks: string, least: number, has: number, one: string): Gate => ({
  asks: `${asks}: ${least} or more`,
  has: digits(has, 0),
  missing: has >= least ? null : `${counted(least - has, one)} still missing`,
});

function redrawGate({ learning, shown }: Calibration): Gate {
  const asks = `Redraws of the buildings in which it foretells unseen buildings better than the overall share does: ${gates.positive * 100} % of ${gates.redraws}`;
  if (!learning) return { asks, has: 'not tried yet', missing: 'the conditions above come first' };
  const has = `${digits(learning.positive * 100, 1)} %`;
  return { asks, has, missing: shown ? null : 'too few, so nothing is shown beside the index' };
}

/** All conditions, and what each still lacks. */
export const gateRows = (count: SoFar, calibration: Calibration): readonly Gate[] => [
  countGate('Opened walls of samples drawn by chance', gates.findings, count.findings, 'wall'),
  countGate('Buildings they stand in', gates.buildings, count.buildings, 'building'),
  countGate('With softened or decayed sheathing', gates.ofEachOutcome, count.softened, 'such wall'),
  countGate('With firm sheathing', gates.ofEachOutcome, count.firm, 'such wall'),
  redrawGate(calibration),
];
