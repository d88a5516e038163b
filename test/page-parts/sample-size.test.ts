import { describe, expect, it } from 'vitest';
import { curveBox, curveShape, reachOf, tallestOf } from '../../dashboard/sample/curve-shape.ts';
import { firstForm } from '../../dashboard/sample/form.ts';
import {
  budgetAnswer,
  curveOf,
  plannedCosts,
  reasonForSize,
  sizeAnswer,
} from '../../dashboard/sample/size-answer.ts';

const form = firstForm('2026-04-01');
const cochran = { ...form, margin: '5', confidence: '95', share: '50' };
const discovery = { ...form, aim: 'discovery', catchShare: '5', confidence: '95' } as const;
const costs = { currency: 'CAD', opening: '900', repair: '600', access: '4000' };

const sized = (...args: Parameters<typeof sizeAnswer>) => {
  const found = sizeAnswer(...args);
  if (!found.ok) throw new Error(found.says.join(' '));
  return found;
};

describe('the number of openings', () => {
  it('percentages of the form give the sizes of Cochran, Sampling Techniques (1977): 278 of 1,000 at ±5, 95 %', () => {
    const { n, words } = sized(cochran, 1000, 'wall');
    expect(n).toBe(278);
    expect(words).toBe(
      'Open 278 of 1,000 walls: a share near 50 % is then estimated to within ±5 percentage points with 95 % confidence.',
    );
  });

  // R, phyper and Σ dhyper · (1 − q)^x: (100, .05, .95) 45; with a detection of 0.8, 56.
  it.each([
    ['1', 45],
    ['0.8', 56],
  ])('a search with detection %s says its number, and the detection with it', (detection, n) => {
    const found = sized({ ...discovery, detection }, 100, 'building');
    expect(found.n).toBe(n);
    expect(found.words).toContain(`Open ${n} of 100 buildings: if 5 % or more (5 buildings)`);
    expect(found.words).toContain(`with a chance of ${detection}.`);
  });

  it('what cannot be reached or was not typed is said in words', () => {
    expect(
      sizeAnswer({ ...discovery, detection: '0.7', catchShare: '2' }, 100, 'wall'),
    ).toMatchObject({
      ok: false,
      says: [expect.stringContaining('cannot be reached')],
    });
    expect(sizeAnswer({ ...cochran, margin: '' }, 100, 'wall')).toMatchObject({ ok: false });
    expect(sizeAnswer(cochran, 0, 'wall')).toMatchObject({ ok: false });
  });

  it('no budget is spoken of until it and every cost are given', () => {
    expect(budgetAnswer({ ...form, ...costs, access: '', budget: '60000' }, 500)).toBeNull();
    expect(budgetAnswer({ ...form, ...costs }, 500)).toBeNull();
  });

  // By hand: (60,000 − 4,000) / 1,500 = 37.3; 37 × 1,500 + 4,000 = 59,500.
  it('a budget buys openings and their repair once access is paid', () => {
    expect(budgetAnswer({ ...form, ...costs, budget: '60000' }, 500)).toMatchObject({
      n: 37,
      words: 'The budget of 60,000 CAD buys 37 openings (59,500 CAD).',
    });
    expect(budgetAnswer({ ...form, ...costs, budget: '5000' }, 500)).toMatchObject({ ok: false });
  });

  it('a plan states the costs with their currency, and none while one is missing', () => {
    expect(plannedCosts({ ...form, ...costs })).toEqual({
      'opening (CAD)': 900,
      'repair (CAD)': 600,
      'access (CAD)': 4000,
    });
    expect(plannedCosts({ ...form, ...costs, repair: '' })).toEqual({});
  });

  it('the reason is the aim only while the number is its answer', () => {
    const answer = sized(cochran, 1000, 'wall');
    expect(reasonForSize({ ...cochran, openings: '278' }, answer)).toBe(answer.words);
    expect(reasonForSize({ ...cochran, openings: '40' }, answer)).toMatch(/given by hand/);
  });
});

describe('the curve', () => {
  const shapeOf = (which: typeof form, population: number, budget: number | null) => {
    const { n } = sized(which, population, 'wall');
    const points = curveOf(which, population, reachOf(population, n, budget));
    const buys = points.find((point) => point.n >= n)!.buys;
    return curveShape(points, { chosen: { n, buys }, budget, tallest: tallestOf[which.aim] });
  };
  const coordinates = (path: string) =>
    [...path.matchAll(/[ML]?(-?[\d.]+),(-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);

  it.each([
    ['margin', cochran],
    ['chance', discovery],
  ])('of the %s stays in its box, and holds the chosen number and the budget', (_, which) => {
    const shape = shapeOf(which, 1000, 37);
    const { width, height, left, right, top, bottom } = curveBox;
    const points = coordinates(shape.path);
    expect(points.length).toBeGreaterThan(20);
    for (const [x, y] of points) {
      expect(x).toBeGreaterThanOrEqual(left);
      expect(x).toBeLessThanOrEqual(width - right);
      expect(y).toBeGreaterThanOrEqual(top - 0.01);
      expect(y).toBeLessThanOrEqual(height - bottom + 0.01);
    }
    expect(shape.chosen).not.toBeNull();
    expect(shape.budget).toBeGreaterThan(left);
  });

  it('a margin falls and a chance rises with more openings', () => {
    const ys = (path: string) => coordinates(path).map(([, y]) => y!);
    const [margins, chances] = [cochran, discovery].map((one) => ys(shapeOf(one, 1000, null).path));
    // The vertical of the screen points down.
    expect(margins).toEqual([...margins!].sort((a, b) => a - b));
    expect(chances).toEqual([...chances!].sort((a, b) => b - a));
  });

  it('never reaches past the population', () => {
    expect(reachOf(30, 28, 25)).toBe(30);
    expect(reachOf(10_000, 50, 200)).toBe(320);
    expect(shapeOf(cochran, 8, null).x.at(-1)!.word).toBe('8');
  });
});
