import { beforeAll, describe, expect, it } from 'vitest';
import { cautionTexts } from '../../analysis/cautions.ts';
import { memorySource } from '../../analysis/read/memory-source.ts';
import type { Analyst } from '../../analysis/session-types.ts';
import { inferenceText } from '../../analysis/survey/inference-file.ts';
import type { LockedPlan } from '../../analysis/survey/plan-standing.ts';
import {
  confidenceTrouble,
  detectionTrouble,
  optionsOf,
  usual,
} from '../../dashboard/findings/asked.ts';
import {
  estimateRows,
  howWords,
  percent,
  responseFigures,
} from '../../dashboard/findings/figures.ts';
import { findingsCsv } from '../../dashboard/findings/finding-csv.ts';
import { gateRows, soFar } from '../../dashboard/findings/gates.ts';
import {
  findWall,
  listedWalls,
  namesIn,
  thresholdWords,
} from '../../dashboard/findings/listed-walls.ts';
import { plannedWalls } from '../../dashboard/findings/planned-walls.ts';
import { across, shareScale, upward, whisker } from '../../dashboard/findings/plot.ts';
import { registerOf } from '../../dashboard/findings/register.ts';
import { locked, portfolio } from './findings-scene.ts';

/** Openings on every selected wall of a plan, each in the condition that `of` says; null is not opened. */
async function openWalls(
  analyst: Analyst,
  { plan, field }: LockedPlan,
  of: (i: number) => string | null,
) {
  const rows = plannedWalls({ plan, field, digest: '', lockedAt: '' })
    .filter(({ control, replacementOrder }) => !control && replacementOrder === null)
    .flatMap((wall, i) => {
      const condition = of(i);
      const place = { building_id: wall.building, wall_id: wall.wall, plan_id: wall.planId };
      return condition === null
        ? []
        : [{ ...place, method: 'opening', sheathing_seen: 'yes', condition }];
    });
  const files = rows.length > 0 ? [memorySource('f.csv', findingsCsv(rows))] : [];
  return analyst.readFindings(files);
}

describe('what is asked of the intervals', () => {
  it('the usual is 95 % and openings that always show it', () => {
    expect(optionsOf(usual)).toEqual({ confidence: 0.95, detection: 1 });
    expect(optionsOf({ confidence: '99.9', detection: '.5' })).toEqual({
      confidence: 0.999,
      detection: 0.5,
    });
  });

  it('what cannot be taken is said, and asks nothing', () => {
    for (const confidence of ['', '100', '49', 'x'])
      expect(confidenceTrouble({ ...usual, confidence })).toContain('from 50 to 99.9');
    for (const detection of ['', '0', '1.1', 'x'])
      expect(detectionTrouble({ ...usual, detection })).toContain('from 0.05 to 1');
    expect(optionsOf({ ...usual, detection: '0' })).toBeNull();
  });
});

describe('the population', () => {
  let analyst: Analyst;
  let plan: LockedPlan;
  beforeAll(async () => {
    analyst = await portfolio();
    plan = await locked(analyst, 'P', { openings: 60, replacementsPerStratum: 1 });
  });

  it('nothing found is never 0 %: it stands with its upper bound', async () => {
    await openWalls(analyst, plan, (i) => (i < 30 ? 'sound' : null));
    const told = await analyst.infer(plan.plan, {});
    const rows = estimateRows(told, 'metric');
    expect(rows.map(({ of }) => of)).toEqual(['All 120 walls', 'All 120 walls, by wall area']);
    expect(rows[0]!.says).toBe('none seen in 30 walls');
    // The hypergeometric distribution itself: most marked walls of 120 of which 30 openings all miss with chance > 0.025.
    const missAll = (marked: number): number =>
      Array.from({ length: 30 }, (_, i) => (120 - marked - i) / (120 - i)).reduce((p, f) => p * f);
    const most = Array.from({ length: 91 }, (_, marked) => marked).findLast(
      (marked) => missAll(marked) > 0.025,
    );
    expect(rows[0]!.between).toBe(`up to ${percent(most! / 120)}`);
    expect(rows[1]!.between).toMatch(/^up to [\d,]+\u00a0m²$/);
    expect(rows.map(({ says }) => says).join()).not.toMatch(/0\.0\u00a0%|0\u00a0m²/);
  });

  it('a share and an area stand between their bounds, in the units of the sheet', async () => {
    await openWalls(analyst, plan, (i) => (i % 3 === 0 ? 'decayed' : 'sound'));
    const told = await analyst.infer(plan.plan, { confidence: 0.9 });
    const [share, area] = estimateRows(told, 'american');
    expect(share!.says).toBe('33.3\u00a0%');
    expect(share!.between).toMatch(/^\d+\.\d\u00a0% to \d+\.\d\u00a0%$/);
    expect(area!.says).toMatch(/^[\d,]+\u00a0ft², \d+\.\d\u00a0% of the wall area$/);
    expect(howWords(share!.estimate!)).toContain('exact hypergeometric');
    expect(howWords(share!.estimate!)).toContain('Clopper-Pearson');
    expect(howWords(area!.estimate!)).toMatch(/^Korn-Graubard; variance simple random/);
    const figures = new Map(responseFigures(told));
    expect(figures.get('Selected walls')).toBe('60');
    expect(figures.get('Response rate')).toBe('100.0\u00a0%');
  });

  it('without an answer there is no line, and a sentence says so', async () => {
    await openWalls(analyst, plan, () => null);
    const told = await analyst.infer(plan.plan, {});
    expect(estimateRows(told, 'metric')).toEqual([]);
    expect(told.says.join()).toContain('nothing can be said of the population yet');
  });

  it('strata stand under the whole, and one without an answer says so', async () => {
    const strata = await locked(analyst, 'S', {
      design: 'stratified',
      strata: ['material'],
      openings: 20,
    });
    const materials = new Map(plannedWalls(strata).map(({ wall, unit }) => [unit, wall] as const));
    const stucco = strata.plan.units.map(({ id }) => materials.get(id) === 'a');
    await openWalls(analyst, strata, (i) => (stucco[i] ? 'sound' : null));
    const rows = estimateRows(await analyst.infer(strata.plan, {}), 'metric');
    const own = rows.slice(2);
    expect(own).toHaveLength(strata.plan.strata.length);
    expect(own.filter(({ estimate }) => estimate === null).map(({ says }) => says)).toEqual([
      'no answer yet',
    ]);
  });

  it('the file of an inference carries the plan, its digest, the question and every caution', async () => {
    await openWalls(analyst, plan, (i) => (i % 3 === 0 ? 'decayed' : 'sound'));
    const told = await analyst.infer(plan.plan, { detection: 0.8 });
    const file = JSON.parse(inferenceText(plan, told, false));
    expect(file.caution).toEqual(cautionTexts);
    expect(file.plan).toMatchObject({ plan_id: 'P', sha256: plan.digest, design: 'simple' });
    expect(file.inference.question.detection).toBe(0.8);
    expect(file.inference.overall.share.share).toBe(told.overall!.share.share);
  });
});

describe('what is learnt', () => {
  let analyst: Analyst;
  let plan: LockedPlan;
  beforeAll(async () => {
    analyst = await portfolio();
    plan = await locked(analyst, 'P', { openings: 60 });
  });

  it('what is counted so far is what the analysis counts', async () => {
    const view = await openWalls(analyst, plan, (i) =>
      i >= 30 ? null : i < 4 ? 'softened' : 'sound',
    );
    const count = soFar(registerOf(view, [], [plan]), [plan]);
    const { calibration } = await analyst.learn([plan.plan]);
    const { findings, buildings, softened, firm } = count;
    expect(calibration.says).toContain(
      `So far there are ${findings} in ${buildings}, ${softened} with and ${firm} without.`,
    );
    expect(gateRows(count, calibration).map(({ missing }) => missing)).toEqual([
      '10 walls still missing',
      null,
      '6 such walls still missing',
      null,
      'the conditions above come first',
    ]);
  });

  it('a sample without chances teaches nothing, and counts nothing', async () => {
    const far = await locked(analyst, 'D', { openings: 4, minimumDistanceKm: 1 });
    const view = await openWalls(analyst, far, () => 'decayed');
    expect(soFar(registerOf(view, [], [far]), [far]).findings).toBe(0);
  });

  it('undecided walls are those of the analysis, and each is found in the ranking', async () => {
    await openWalls(analyst, plan, () => null);
    const learnt = await analyst.learn([plan.plan]);
    const [first] = listedWalls(learnt, 'undecided');
    expect(first!.unit).toBe(learnt.undecided[0]!.unit);
    const found = await findWall(analyst, first!.unit);
    expect(found!.building).toBe(learnt.undecided[0]!.building);
    expect(found!.wall.wall_id).toBe(learnt.undecided[0]!.wall);
    expect(Number(found!.wall.index_high) - Number(found!.wall.index_low)).toBeCloseTo(
      first!.worth!,
      6,
    );
  });

  it('walls by chance: the highest first, those that are also undecided with what they are worth', async () => {
    const learnt = await analyst.learn([plan.plan]);
    const { unit } = learnt.undecided[0]!;
    const chances = { [unit]: 0.2, 'B00 / zz': 0.7 };
    expect(
      listedWalls({ ...learnt, chances }, 'chance').map(({ unit, worth }) => [unit, worth]),
    ).toEqual([
      ['B00 / zz', null],
      [unit, learnt.undecided[0]!.worth],
    ]);
  });

  it('ids that hold the mark between building and wall are tried at each place of it', () => {
    expect(namesIn('A / B / C')).toEqual([
      ['A', 'B / C'],
      ['A / B', 'C'],
    ]);
    expect(namesIn('A')).toEqual([]);
  });

  it('a threshold is said by the tier that begins there', () => {
    const constants = { tier_first_look: 40, tier_next_look: 25, tier_keep_watch: 8 };
    expect(thresholdWords([40, 8, 5], constants)).toBe('First look (40), Keep watch (8), 5');
  });

  it('the diagonal of the plot is where chance and share agree, and shares have one scale', () => {
    for (const share of [0, 0.3, 1]) {
      const along = (across(share) - across(0)) / (across(1) - across(0));
      const up = (upward(share) - upward(0)) / (upward(1) - upward(0));
      expect(along).toBeCloseTo(up, 12);
      expect(along).toBeCloseTo(share, 12);
    }
    expect([shareScale(0), shareScale(1), shareScale(2)]).toEqual([
      whisker.from,
      whisker.to,
      whisker.to,
    ]);
  });
});
