import { describe, expect, test } from 'vitest';
import { layersOf } from '../../analysis/rain/formats/time.ts';
import type { Variable } from '../../analysis/rain/formats/variables.ts';
import { refusal } from '../read/sources.ts';

const axis = (units: string, values: readonly number[], calendar = 'standard'): Variable => ({
  name: 'time',
  type: 'float64',
  dimensions: [{ name: 'time', size: values.length }],
  attributes: new Map([
    ['units', units],
    ['calendar', calendar],
  ]),
  read: async () => values,
});

/** Days from one date to others, by the platform's own calendar. */
const daysFrom = (date: string, others: readonly string[]) =>
  others.map((other) => (Date.parse(other) - Date.parse(date)) / 86_400_000);

const monthsFrom = (year: number, month: number, n: number, day: number) =>
  Array.from({ length: n }, (_, k) =>
    new Date(Date.UTC(year, month + k, day)).toISOString().slice(0, 10),
  );

describe('how time steps make a year', () => {
  test.each([1, 15, 28])(
    'months of whole years are found whichever day (%i) stands for them',
    async (day) => {
      for (const first of [0, 2, 6, 11]) {
        const times = daysFrom('1900-03-01', monthsFrom(1991, first, 360, day));
        expect(await layersOf('f.nc', 360, axis('days since 1900-03-01', times))).toEqual({
          kind: 'months',
          n: 360,
          first,
        });
      }
    },
  );

  test('hours and months count too', async () => {
    const hours = daysFrom('1800-01-01', monthsFrom(1981, 9, 24, 1)).map((d) => 24 * d);
    expect(await layersOf('f.nc', 24, axis('hours since 1800-1-1 00:00:0.0', hours))).toEqual({
      kind: 'months',
      n: 24,
      first: 9,
    });
    const months = Array.from({ length: 12 }, (_, k) => k + 3.5);
    expect(await layersOf('f.nc', 12, axis('months since 2000-05-01', months))).toMatchObject({
      first: 7,
    });
  });

  test('calendars without leap days, and of twelve months of 30 days, are followed', async () => {
    const of = (year: readonly number[], first: number) =>
      Array.from({ length: 24 }, (_, k) => {
        const month = first + k;
        const before = year.slice(0, month % 12).reduce((a, b) => a + b, 0);
        return 365 * Math.floor(month / 12) + before + 365 * 40;
      });
    const noleap = of([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31], 5);
    expect(
      await layersOf('f.nc', 24, axis('days since 1850-01-01', noleap, 'noleap')),
    ).toMatchObject({ first: 5 });
    const thirty = Array.from({ length: 24 }, (_, k) => 30 * (k + 12 * 40 + 8));
    expect(
      await layersOf('f.nc', 24, axis('days since 1850-01-01', thirty, '360_day')),
    ).toMatchObject({ first: 8 });
  });

  test('years are averaged', async () => {
    const times = daysFrom('1970-01-01', ['2001-07-01', '2002-07-01', '2003-07-01']);
    expect(await layersOf('f.nc', 3, axis('days since 1970-01-01', times))).toEqual({
      kind: 'years',
      n: 3,
    });
  });

  test('twelve layers without a calendar are the months, January first', async () => {
    const january = { kind: 'months', n: 12, first: 0 };
    expect(await layersOf('f.nc', 12, null)).toEqual(january);
    expect(
      await layersOf('f.nc', 12, axis('month', [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12])),
    ).toEqual(january);
  });

  test('a part of a year is refused: its sum would be no year', async () => {
    const times = daysFrom('2000-01-01', monthsFrom(2001, 0, 18, 15));
    expect(await refusal(layersOf('f.nc', 18, axis('days since 2000-01-01', times)))).toContain(
      '18 time steps',
    );
    expect(await refusal(layersOf('f.nc', 7, null))).toContain('7 time steps');
  });
});
