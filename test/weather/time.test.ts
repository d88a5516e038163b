import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  dateOf,
  dayNumber,
  hoursOfYear,
  hourText,
  readMoment,
} from '../../analysis/weather/time.ts';

describe('the calendar', () => {
  test('counts days as ECMAScript’s Date.UTC does (ECMA-262), both ways', () => {
    fc.assert(
      fc.property(
        fc.date({
          min: new Date('1600-01-01'),
          max: new Date('2400-01-01'),
          noInvalidDate: true,
        }),
        (date) => {
          const [year, month, day] = [
            date.getUTCFullYear(),
            date.getUTCMonth() + 1,
            date.getUTCDate(),
          ];
          const days = Math.floor(date.getTime() / 86_400_000);
          expect(dayNumber(year, month, day)).toBe(days);
          expect(dateOf(days)).toEqual({ year, month, day });
        },
      ),
      { seed: 1, numRuns: 2000 },
    );
  });

  test('has no 29 February 2019, no 31 April and no month 13', () => {
    for (const [y, m, d] of [
      [2019, 2, 29],
      [2019, 4, 31],
      [2019, 13, 1],
      [2019, 0, 1],
      [1900, 2, 29],
    ] as const) {
      expect(dayNumber(y, m, d)).toBeNaN();
    }
    expect([hoursOfYear(2019), hoursOfYear(2020), hoursOfYear(1900)]).toEqual([8760, 8784, 8760]);
  });
});

describe('a time', () => {
  const monthFirst = (text: string) => {
    const moment = readMoment(text);
    return typeof moment === 'object' && moment ? moment.monthFirst : moment;
  };
  const minutes = Date.UTC(2019, 2, 31, 14, 0) / 60_000;

  test.each([
    '2019-03-31 14:00',
    '2019-03-31T14:00',
    '2019-03-31T14:00:00',
    '2019-03-31T14:00:00.000Z',
    '2019-03-31 14:00 UTC',
    '2019-03-31T16:00+02:00',
    '2019-03-31T09:00:00-0500',
    '2019/03/31 14:00',
    '2019-3-31 14',
    '20190331 1400',
    '201903311400',
    '2019033114',
    '31-Mar-2019 14:00',
    '31 march 2019 14:00',
    '3/31/2019 14:00',
    '3/31/2019 2:00 PM',
    '03/31/2019 2 pm',
    '31/03/2019 14:00',
  ])('written %s is 14:00 on 31 March 2019', (text) => {
    const moment = readMoment(text);
    if (moment === null || moment === 'date-only') throw new Error(`${text} was not read`);
    expect(text.startsWith('31/') ? moment.dayFirst : moment.monthFirst).toBe(minutes);
  });

  test('24:00 is the end of the day, noon and midnight are where the clock has them', () => {
    expect(monthFirst('2019-03-31 24:00')).toBe(monthFirst('2019-04-01 00:00'));
    expect(monthFirst('3/31/2019 12:00 AM')).toBe(monthFirst('2019-03-31 00:00'));
    expect(monthFirst('3/31/2019 12:30 PM')).toBe(monthFirst('2019-03-31 12:30'));
  });

  test('3/4/2019 is left open between March and April', () => {
    const moment = readMoment('3/4/2019 00:00');
    expect(moment).toEqual({
      monthFirst: Date.UTC(2019, 2, 4) / 60_000,
      dayFirst: Date.UTC(2019, 3, 3) / 60_000,
    });
  });

  test.each([
    '',
    'noon',
    '2019-02-30 12:00',
    '2019-03-31 25:00',
    '2019-03-31 12:75',
    '13:00',
    '3/31/2019 14:00 PM',
  ])('is not read from "%s"', (text) => {
    expect(readMoment(text)).toBeNull();
  });

  test('a date alone has no hour', () => {
    expect([readMoment('2019-03-31'), readMoment('3/31/2019')]).toEqual(['date-only', 'date-only']);
  });

  test('an hour is written as a person would', () => {
    expect(hourText(24 * dayNumber(2019, 3, 31) + 14)).toBe('2019-03-31 14:00');
  });
});
