import { describe, expect, test } from 'vitest';
import { calibrate, type LearnedWall } from '../../analysis/findings/calibrate.ts';
import { chanceAt, fitLogistic, linear } from '../../analysis/findings/logistic.ts';
import { standardised } from '../../analysis/findings/scale.ts';
import { undecidedByInterval, undecidedByLearning } from '../../analysis/findings/undecided.ts';
import { seeded } from '../../analysis/sample/random.ts';
import { randomFrom } from './random.ts';

const tiers = [40, 25, 8];

describe('most undecided walls', () => {
  test('without calibration: intervals over a threshold, the widest first, ties by identifier', () => {
    const wall = (unit: string, low: number, high: number) => ({
      unit,
      index: (low + high) / 2,
      low,
      high,
    });
    const walls = [
      wall('inside', 26, 39),
      wall('c', 30, 45),
      wall('b', 20, 35),
      wall('wide', 5, 60),
      wall('reaches', 39, 40),
      wall('starts', 40, 70),
    ];
    expect(undecidedByInterval(walls, tiers)).toEqual([
      { unit: 'wide', worth: 55, thresholds: [40, 25, 8] },
      { unit: 'b', worth: 15, thresholds: [25] },
      { unit: 'c', worth: 15, thresholds: [40] },
      { unit: 'reaches', worth: 1, thresholds: [40] },
    ]);
    expect(undecidedByInterval([], tiers)).toEqual([]);
  });

  const random = randomFrom(5);
  const predictors = () => ({ w: 0.2 + 0.6 * random(), d: random(), s: random() });
  const findings = Array.from({ length: 120 }, (_, i): LearnedWall => {
    const own = predictors();
    const eta = -2 + 4 * own.d + 2 * Math.log(own.w);
    return { ...own, building: `B${i >> 2}`, weight: 1, softened: random() < chanceAt(eta + 1.5) };
  });
  const { model } = calibrate(findings, seeded(1)).learning!;
  const open = Array.from({ length: 150 }, (_, i) => {
    const own = predictors();
    const index = 100 * own.w * own.d * own.s;
    return { ...own, unit: `W${i}`, index, low: index - 5, high: index + 5 };
  });

  test('with calibration: the expected number of others that change tier is that of refitting with each outcome', () => {
    const got = undecidedByLearning(model, open, tiers);
    const inside = open.filter(({ w, d, s }) =>
      model.scale.every(({ least, most }, k) => {
        const value = [Math.log(w), d, s][k]!;
        return value >= least && value <= most;
      }),
    );
    const rowOf = (wall: (typeof open)[number]) => standardised(model.scale, wall);
    const before = inside.map((wall) => linear(model.fit.beta, rowOf(wall)));
    const falling = [...before].sort((a, b) => b - a);
    const cuts = tiers.flatMap((tier) => {
      const above = inside.filter(({ index }) => index >= tier).length;
      return above > 0 && above < inside.length
        ? [(falling[above - 1]! + falling[above]!) / 2]
        : [];
    });
    const tierAt = (eta: number): number => cuts.filter((cut) => eta >= cut).length;
    const refitted = (wall: (typeof open)[number]): number =>
      [0, 1].reduce((sum, outcome) => {
        const all = {
          x: [...findings.map((one) => standardised(model.scale, one)), rowOf(wall)],
          y: Float64Array.from([...findings.map(({ softened }) => (softened ? 1 : 0)), outcome]),
          weight: new Float64Array(findings.length + 1).fill(1),
        };
        const { beta } = fitLogistic(all, model.penalty, model.fit.beta);
        const changed = inside.filter(
          (other, i) => other !== wall && tierAt(linear(beta, rowOf(other))) !== tierAt(before[i]!),
        ).length;
        const p = chanceAt(linear(model.fit.beta, rowOf(wall)));
        return sum + (outcome === 1 ? p : 1 - p) * changed;
      }, 0);
    const worth = new Map(got.map((one) => [one.unit, one.worth]));
    const exact = inside.map(refitted);
    const off = inside.map((wall, i) => Math.abs((worth.get(wall.unit) ?? 0) - exact[i]!));
    const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
    expect(mean(exact)).toBeGreaterThan(0.5);
    // One Newton step against a whole refit: a crossing more or less here and there.
    expect(mean(off)).toBeLessThan(0.2 * mean(exact));
  });

  test('with calibration: most first, and walls beyond the findings are left out', () => {
    const far = { ...open[0]!, unit: 'far', w: 0.99 };
    const got = undecidedByLearning(model, [...open, far], tiers);
    expect(got.map(({ unit }) => unit)).not.toContain('far');
    expect(got.map(({ worth }) => worth)).toEqual(
      got.map(({ worth }) => worth).sort((a, b) => b - a),
    );
  });
});
