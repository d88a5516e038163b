import { describe, expect, test } from 'vitest';
import { pivotOf } from '../../analysis/exposure/pivot.ts';
import { dimensions } from '../../analysis/exposure/types.ts';
import { firstForm, requestOf, withDimension } from '../../dashboard/exposure/form.ts';
import { pivotRows } from '../../dashboard/exposure/pivot-rows.ts';
import { everyLine, portfolio } from './portfolio.ts';

describe('the choice of what divides the pivot', () => {
  test('a dimension that stands elsewhere changes places with the one that it replaces', () => {
    const swapped = withDimension(firstForm, 'rows', 'region');
    expect(swapped).toEqual({ rows: 'region', thenBy: null, columns: 'tier' });
    expect(withDimension({ ...firstForm, columns: null }, 'columns', 'tier').columns).toBe('tier');
  });

  test('whatever is chosen, rows are divided and no dimension stands twice', () => {
    for (const columns of [null, ...dimensions]) {
      for (const slot of ['rows', 'thenBy', 'columns'] as const) {
        for (const dimension of slot === 'rows' ? dimensions : [null, ...dimensions]) {
          const before = { ...firstForm, ...withDimension(firstForm, 'columns', columns) };
          const form = { ...before, ...withDimension(before, slot, dimension) };
          const { rows, columns: across } = requestOf(form);
          const all = [...rows, ...across];
          expect(form[slot]).toBe(dimension);
          expect(rows.length).toBeGreaterThan(0);
          expect(new Set(all).size).toBe(all.length);
        }
      }
    }
  });
});

test('a heading that stands for several rows is set once and spans those that are shown', () => {
  const c = portfolio(300);
  const pivot = pivotOf(c, everyLine(c.n), { rows: ['tier', 'region'], columns: [] }, 1);
  for (const most of [4, 7, Number.POSITIVE_INFINITY]) {
    const rows = pivotRows(pivot, most);
    expect(rows.length).toBe(Math.min(most, pivot.rows.n));
    const spans = (d: 'tier' | 'region') =>
      rows
        .flatMap(({ heads }) => heads.filter(({ dimension }) => dimension === d))
        .map(({ span }) => span);
    expect(spans('tier').reduce((a, b) => a + b)).toBe(rows.length);
    expect(spans('region')).toEqual(rows.map(() => 1));
  }
});
