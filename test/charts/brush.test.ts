import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { edgesOf } from '../../analysis/sift/tally-bins.ts';
import { type Cover, coverAt, holdAt } from '../../dashboard/charts/brush.ts';
import { conditionOf, sameCondition, spanOf } from '../../dashboard/charts/condition.ts';
import { foremost } from '../../dashboard/charts/foremost.ts';
import { stepFrom } from '../../dashboard/charts/walk.ts';

const bins = { x: 20, y: 10 };
const reach = { x: 0.3, y: 0.3 };
const nothing: Cover = { x: null, y: null };
const drag = (before: Cover, from: readonly [number, number], to: readonly [number, number]) =>
  coverAt(holdAt(before, { x: from[0], y: from[1] }, reach), { x: to[0], y: to[1] }, bins);

describe('a brush covers whole bins', () => {
  test('drawing covers every bin that the pointer touched, either way', () => {
    expect(drag(nothing, [3.4, 2.5], [7.2, 4.1])).toEqual({
      x: { from: 3, to: 8 },
      y: { from: 2, to: 5 },
    });
    expect(drag(nothing, [7.2, 4.1], [3.4, 2.5])).toEqual(drag(nothing, [3.4, 2.5], [7.2, 4.1]));
  });

  const cover: Cover = { x: { from: 4, to: 9 }, y: { from: 2, to: 6 } };

  test('gripped inside, it moves by whole bins and stops at the ends', () => {
    expect(drag(cover, [6, 4], [8.4, 3.1])).toEqual({
      x: { from: 6, to: 11 },
      y: { from: 1, to: 5 },
    });
    expect(drag(cover, [6, 4], [60, 40])).toEqual({
      x: { from: 15, to: 20 },
      y: { from: 6, to: 10 },
    });
  });

  test('gripped at an edge, that edge alone follows, and may be drawn past the other', () => {
    expect(drag(cover, [9.1, 4], [12.4, 9])).toEqual({ x: { from: 4, to: 12 }, y: cover.y });
    expect(drag(cover, [4.1, 4], [12, 4])).toEqual({ x: { from: 9, to: 12 }, y: cover.y });
  });

  test('gripped at a corner, both edges follow', () => {
    expect(drag(cover, [9, 6], [12, 8])).toEqual({ x: { from: 4, to: 12 }, y: { from: 2, to: 8 } });
  });

  test('gripped outside, it is drawn anew', () => {
    expect(drag(cover, [15.5, 4.5], [16.5, 5.5])).toEqual({
      x: { from: 15, to: 17 },
      y: { from: 4, to: 6 },
    });
  });

  test('an axis without bins takes no part', () => {
    const hold = holdAt(nothing, { x: 3.5, y: 0.5 }, reach);
    expect(coverAt(hold, { x: 5.5, y: 0.9 }, { x: 20, y: 1 })).toEqual({
      x: { from: 3, to: 6 },
      y: null,
    });
  });

  test('whatever the drag, at least one bin is covered and none outside the axis', () => {
    const place = fc.tuple(
      fc.double({ min: -5, max: 25, noNaN: true }),
      fc.double({ min: -5, max: 15, noNaN: true }),
    );
    fc.assert(
      fc.property(place, place, place, place, (a, b, c, d) => {
        const { x, y } = drag(drag(nothing, a, b), c, d);
        for (const [span, n] of [
          [x, bins.x],
          [y, bins.y],
        ] as const) {
          expect(Number.isInteger(span!.from) && Number.isInteger(span!.to)).toBe(true);
          expect(span!.from).toBeGreaterThanOrEqual(0);
          expect(span!.to).toBeGreaterThan(span!.from);
          expect(span!.to).toBeLessThanOrEqual(n);
        }
      }),
    );
  });
});

describe('a cover is a condition', () => {
  const edges = edgesOf(0, 0.05, 20);

  test('and comes back from it, edge by edge', () => {
    for (let from = 0; from < 20; from++) {
      for (let to = from + 1; to <= 20; to++) {
        const condition = conditionOf(edges, { from, to });
        const whole = from === 0 && to === 20;
        const range = condition && !('among' in condition) ? condition : null;
        expect(spanOf(edges, range)).toEqual(whole ? null : { from, to });
      }
    }
  });

  test('an end at the end of the axis is open, so that what lies past it is let through', () => {
    expect(conditionOf(edges, { from: 0, to: 3 })).toEqual({ below: 0.15 });
    expect(conditionOf(edges, { from: 3, to: 20 })).toEqual({ from: 0.15 });
    expect(conditionOf(edges, { from: 0, to: 20 })).toBeNull();
  });

  test('a condition from elsewhere may end within a bin', () => {
    expect(spanOf(edgesOf(0, 5, 20), { from: 42 })).toEqual({ from: 8.4, to: 20 });
  });

  test('two conditions are the same whatever the order of their words', () => {
    expect(sameCondition({ among: ['a', null] }, { among: [null, 'a'] })).toBe(true);
    expect(sameCondition({ among: ['a'] }, { among: ['a', null] })).toBe(false);
    expect(sameCondition({ from: 1 }, { from: 1, below: 2 })).toBe(false);
    expect(sameCondition({ from: 1 }, { among: [] })).toBe(false);
    expect(sameCondition(undefined, null)).toBe(true);
  });
});

describe('rows of a long list', () => {
  const words = ['a', 'b', 'c', 'd', 'e', 'f'];

  test('all where they fit; else the first, and one line for the rest', () => {
    expect(foremost(words, [], 6)).toEqual({ shown: [0, 1, 2, 3, 4, 5], left: [] });
    expect(foremost(words, [], 4)).toEqual({ shown: [0, 1, 2], left: [3, 4, 5] });
  });

  test('a row that is chosen is always shown, in its place', () => {
    expect(foremost(words, ['f', 'b'], 4)).toEqual({ shown: [0, 1, 5], left: [2, 3, 4] });
  });
});

describe('arrow keys walk through a table of buttons', () => {
  const lengths = [5, 3, 4];

  test('within the table, also where a row is shorter', () => {
    expect(stepFrom(lengths, { row: 0, column: 4 }, 'ArrowDown')).toEqual({ row: 1, column: 2 });
    expect(stepFrom(lengths, { row: 0, column: 0 }, 'ArrowUp')).toEqual({ row: 0, column: 0 });
    expect(stepFrom(lengths, { row: 2, column: 3 }, 'ArrowRight')).toEqual({ row: 2, column: 3 });
    expect(stepFrom(lengths, { row: 2, column: 3 }, 'Home')).toEqual({ row: 2, column: 0 });
    expect(stepFrom(lengths, { row: 0, column: 1 }, 'End')).toEqual({ row: 0, column: 4 });
  });

  test('other keys are left alone', () => {
    expect(stepFrom(lengths, { row: 0, column: 0 }, 'Enter')).toBeNull();
  });
});
