import { describe, expect, test } from 'vitest';
import { curveOf, stepOf } from '../../analysis/exposure/curve.ts';
import { pivotOf } from '../../analysis/exposure/pivot.ts';
import { sumAt } from '../../analysis/exposure/sums.ts';
import { linesOf, sumsOf } from './naive.ts';
import { everyLine, portfolio, someLines } from './portfolio.ts';

const usd = 1;

describe('the threshold curve', () => {
  const c = portfolio(900, { seed: 4 });
  const shown = someLines(c.n, 4);
  const curve = curveOf(c, shown, usd);

  test('never rises with the index, and low ≤ as scored ≤ high at every index', () => {
    for (const measure of ['value', 'lines', 'buildings'] as const) {
      const [low, mean, high] = [curve.low[measure], curve.mean[measure], curve.high[measure]];
      mean.forEach((at, step) => {
        expect(low[step]!).toBeLessThanOrEqual(at);
        expect(at).toBeLessThanOrEqual(high[step]!);
        for (const line of [low, mean, high]) {
          if (step > 0) expect(line[step]!).toBeLessThanOrEqual(line[step - 1]!);
        }
      });
    }
  });

  test('begins with the total of all scored lines and ends with those of index 100', () => {
    const { rows } = pivotOf(c, shown, { rows: ['tier'], columns: [] }, usd);
    const scored = [...rows.levels[0]!.keys()].filter((row) => rows.levels[0]![row] !== 4);
    const total = (measure: 'value' | 'lines' | 'buildings') =>
      scored.reduce((sum, row) => sum + Math.round(sumAt(rows.sums, measure, row, 'all') * 100), 0);
    for (const line of [curve.low, curve.mean, curve.high]) {
      for (const measure of ['value', 'lines', 'buildings'] as const) {
        expect(Math.round(line[measure][0]! * 100)).toBe(total(measure));
      }
      expect(line.lines.at(-1)).toBe(0);
    }
    const full = { ...c, index: c.index.map(() => 100) };
    expect(curveOf(full, shown, usd).mean.lines.at(-1)).toBe(shown.length);
  });

  test.each([0, 0.01, 7.77, 8, 25, 40, 59.99, 60, 100])('at %d it is the naive sum', (index) => {
    const above = linesOf(c, shown).filter(({ b }) => c.index[b]! >= index);
    const { value, lines, buildings } = sumsOf(above, usd);
    const step = stepOf(index);
    expect({
      value: curve.mean.value[step],
      lines: curve.mean.lines[step],
      buildings: curve.mean.buildings[step],
    }).toEqual({ value, lines, buildings });
  });

  test('an index between two published ones counts what lies above it', () => {
    expect([stepOf(24.999), stepOf(25), stepOf(25.001)]).toEqual([2500, 2500, 2501]);
    expect([stepOf(-1), stepOf(101)]).toEqual([0, 10_000]);
  });

  test('of no lines it is zero throughout', () => {
    const { mean } = curveOf(c, everyLine(0), usd);
    expect(mean.value.every((at) => at === 0)).toBe(true);
  });
});
