import { describe, expect, it } from 'vitest';
import { placeNote } from '../../dashboard/parts/ledger-request.ts';
import {
  moved,
  rowsOn,
  rowsPerSheet,
  sheetCount,
  sheetOf,
} from '../../dashboard/rank/sheet-of-rows.ts';
import { createRowCache } from '../../dashboard/state/rows.ts';

const settled = () => new Promise((resolve) => setTimeout(resolve, 0));

describe('keys in the table', () => {
  it('move the selection by one, by a page, or to an end, and never past an end', () => {
    expect(moved('ArrowDown', 3, 10, 4)).toBe(4);
    expect(moved('ArrowUp', 0, 10, 4)).toBe(0);
    expect(moved('PageDown', 8, 10, 4)).toBe(9);
    expect(moved('PageUp', 5, 10, 4)).toBe(1);
    expect(moved('Home', 5, 10, 4)).toBe(0);
    expect(moved('End', 5, 10, 4)).toBe(9);
  });

  it('start at the first row where nothing is selected', () => {
    expect(moved('ArrowDown', null, 10, 4)).toBe(0);
  });

  it('that mean nothing here, and tables without rows, move nothing', () => {
    expect(moved('x', 3, 10, 4)).toBeNull();
    expect(moved('End', null, 0, 4)).toBeNull();
  });
});

describe('sheets of rows', () => {
  it('a ranking of ordinary size is one sheet', () => {
    expect(sheetCount(0)).toBe(1);
    expect(sheetCount(rowsPerSheet)).toBe(1);
  });

  it('together hold every row once', () => {
    const rows = 2 * rowsPerSheet + 17;
    const held = Array.from({ length: sheetCount(rows) }, (_, sheet) => rowsOn(sheet, rows));
    expect(held).toEqual([rowsPerSheet, rowsPerSheet, 17]);
    expect(sheetOf(2 * rowsPerSheet + 5)).toEqual({ sheet: 2, local: 5 });
  });
});

describe('the row cache', () => {
  const analyst = (asked: number[][]) => ({
    rows: async (ordinals: Int32Array) => {
      asked.push([...ordinals]);
      return [...ordinals].map((b) => ({ building_id: `B${b}` }));
    },
  });

  it('asks only for rows it does not hold', async () => {
    const asked: number[][] = [];
    const cache = createRowCache(analyst(asked));
    cache.want(Int32Array.of(1, 2));
    await settled();
    cache.want(Int32Array.of(2, 3));
    await settled();
    expect(asked).toEqual([[1, 2], [3]]);
    expect(cache.row(3)).toEqual({ building_id: 'B3' });
    expect(cache.row(9)).toBeUndefined();
  });

  it('skips windows that were passed while an answer was awaited', async () => {
    const asked: number[][] = [];
    const cache = createRowCache(analyst(asked));
    cache.want(Int32Array.of(1));
    cache.want(Int32Array.of(50));
    cache.want(Int32Array.of(99));
    await settled();
    expect(asked).toEqual([[1], [99]]);
  });

  it('says why rows could not be had, and forgets it when they can', async () => {
    let broken = true;
    const cache = createRowCache({
      rows: async (ordinals) => {
        if (broken) throw new Error('the engine stopped');
        return [...ordinals].map(() => ({}));
      },
    });
    cache.want(Int32Array.of(1));
    await settled();
    expect(cache.failed()).toBe('the engine stopped');
    broken = false;
    cache.want(Int32Array.of(1));
    await settled();
    expect(cache.failed()).toBeNull();
  });
});

describe('a margin note', () => {
  const view = { width: 1000, height: 600 };
  const note = { width: 300, height: 400 };

  it('unfolds to the right of its number, else to the left', () => {
    expect(placeNote({ left: 100, right: 150, top: 100, bottom: 120 }, note, view).side).toBe(
      'right',
    );
    expect(placeNote({ left: 800, right: 850, top: 100, bottom: 120 }, note, view).side).toBe(
      'left',
    );
  });

  it('stays within the window', () => {
    for (const left of [0, 300, 500, 700, 960])
      for (const top of [0, 300, 590]) {
        const place = placeNote({ left, right: left + 40, top, bottom: top + 16 }, note, view);
        expect(place.left).toBeGreaterThanOrEqual(0);
        expect(place.left + note.width).toBeLessThanOrEqual(view.width);
        expect(place.top).toBeGreaterThanOrEqual(0);
        expect(place.top + note.height).toBeLessThanOrEqual(view.height);
      }
  });
});
