import { describe, expect, test } from 'vitest';
import {
  calibrate,
  calibratedChance,
  gates,
  type LearnedWall,
} from '../../analysis/findings/calibrate.ts';
import { foldsOf, groupsOf } from '../../analysis/findings/grouped.ts';
import { chanceAt } from '../../analysis/findings/logistic.ts';
import { seeded } from '../../analysis/sample/random.ts';
import { normal, randomFrom } from './random.ts';

/** Opened walls, four a building, whose true log-odds rise with ln w, d and s by `slope`. */
function opened(n: number, slope: number, seed: number): LearnedWall[] {
  const random = randomFrom(seed);
  return Array.from({ length: n }, (_, i) => {
    const [w, d, s] = [0.2 + 0.6 * random(), random(), random()];
    const eta = -0.8 + slope * (3 * (Math.log(w) + 0.8) + 3 * (d - 0.5) + (s - 0.5));
    const weight = Math.exp(0.4 * normal(random));
    return { building: `B${i >> 2}`, w, d, s, weight, softened: random() < chanceAt(eta) };
  });
}

describe('learning from findings', () => {
  const strong = calibrate(opened(200, 1.5, 1), seeded(2));

  test('what foretells unseen buildings is shown, and speaks of these walls alone', () => {
    expect(strong.shown).toBe(true);
    expect(strong.learning!.skill).toBeGreaterThan(0.1);
    expect(strong.says).toContain(
      'Learnt from these 200 walls in 50 buildings, not for other portfolios',
    );
  });

  test('what foretells nothing is not shown: outcomes dealt at random, twelve times', () => {
    const shown = Array.from({ length: 12 }, (_, seed) =>
      calibrate(opened(120, 0, 100 + seed), seeded(seed)),
    ).filter((one) => one.shown);
    expect(shown.length).toBeLessThanOrEqual(1);
  });

  test('the same findings and seed teach the same', () => {
    expect(calibrate(opened(200, 1.5, 1), seeded(2))).toEqual(strong);
  });

  test('a chance lies between the least and the greatest of the truth, and rises with load and deficiency', () => {
    const { model } = strong.learning!;
    const at = (w: number, d: number): number => calibratedChance(model, { w, d, s: 0.5 })!;
    expect(at(0.7, 0.9)).toBeGreaterThan(at(0.7, 0.2));
    expect(at(0.7, 0.9)).toBeGreaterThan(at(0.3, 0.9));
    expect(at(0.7, 0.9)).toBeLessThan(1);
  });

  test('beyond the findings there is no chance', () => {
    const { model } = strong.learning!;
    expect(calibratedChance(model, { w: 0.95, d: 0.5, s: 0.5 })).toBeNull();
    expect(calibratedChance(model, { w: 0.05, d: 0.5, s: 0.5 })).toBeNull();
    expect(calibratedChance(model, { w: 0.5, d: 0.5, s: 1.2 })).toBeNull();
    expect(calibratedChance(model, { w: Number.NaN, d: 0.5, s: 0.5 })).toBeNull();
  });

  test('reliability: every wall in one bin, predictions rising, what was seen near what was foretold', () => {
    const { reliability, walls } = strong.learning!;
    expect(reliability.reduce((sum, { n }) => sum + n, 0)).toBe(walls);
    reliability.forEach(({ from, to, predicted, observed }, i) => {
      expect(predicted).toBeGreaterThanOrEqual(from);
      expect(predicted).toBeLessThanOrEqual(to);
      expect(Math.abs(predicted - observed)).toBeLessThan(0.25);
      if (i > 0) expect(from).toBeGreaterThanOrEqual(reliability[i - 1]!.to);
    });
  });

  test('weights count: walls that stand for many move the overall share', () => {
    const walls = opened(200, 0, 9).map((wall) => ({ ...wall, weight: wall.softened ? 9 : 1 }));
    const { model } = calibrate(walls, seeded(1)).learning!;
    const share = walls.filter(({ softened }) => softened).length / walls.length;
    expect(chanceAt(model.fit.beta[0]!)).toBeGreaterThan(share + 0.2);
  });

  test.each([
    ['39 walls', opened(200, 0, 3).slice(0, 39)],
    ['14 buildings', opened(56, 0, 4)],
    ['nothing softened', opened(80, 0, 5).map((wall) => ({ ...wall, softened: false }))],
    ['all softened', opened(80, 0, 5).map((wall) => ({ ...wall, softened: true }))],
    ['nothing at all', []],
  ])('too little to learn from: %s', (_, walls) => {
    const { shown, learning, says } = calibrate(walls, seeded(1));
    expect([shown, learning]).toEqual([false, null]);
    expect(says).toContain(`at least ${gates.findings} opened walls`);
    expect(says).toContain(`there are ${walls.length} in`);
  });

  test('outcomes that part by building teach nothing, and nothing breaks', () => {
    const walls = opened(80, 0, 6).map((wall, i) => ({
      ...wall,
      building: `B${i % 16}`,
      softened: i % 16 < 2,
    }));
    const { learning } = calibrate(walls, seeded(1));
    expect(learning!.walls).toBe(80);
    expect(Number.isFinite(learning!.skill)).toBe(true);
  });

  test('a predictor that never differed says nothing', () => {
    const walls = opened(120, 1.5, 7).map((wall) => ({ ...wall, s: 0.8 }));
    const { model } = calibrate(walls, seeded(1)).learning!;
    expect(model.fit.beta[3]).toBe(0);
    expect(calibratedChance(model, { w: 0.5, d: 0.5, s: 0.8 })).not.toBeNull();
    expect(calibratedChance(model, { w: 0.5, d: 0.5, s: 0.7 })).toBeNull();
  });

  test('all walls of a building are in one fold, and the folds are of like size', () => {
    const { group, count } = groupsOf(opened(92, 0, 8).map(({ building }) => building));
    const fold = foldsOf(group, count, 10, seeded(3));
    for (let g = 0; g < count; g += 1) {
      expect(new Set(fold.filter((_, i) => group[i] === g)).size).toBe(1);
    }
    const sizes = Array.from({ length: 10 }, (_, f) => fold.filter((own) => own === f).length / 4);
    expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
  });
});
