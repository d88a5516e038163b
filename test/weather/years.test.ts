import { describe, expect, test } from 'vitest';
import { drivingRain } from '../../analysis/weather/record.ts';
import { dayNumber } from '../../analysis/weather/time.ts';
import { type Hour, hoursOf, recordOf } from './hours.ts';

describe('years', () => {
  const start = (year: number, month = 1, day = 1) => 24 * dayNumber(year, month, day);
  const between = (from: number, to: number, keep: (hour: number) => boolean = () => true) =>
    Array.from({ length: to - from }, (_, i) => from + i)
      .filter(keep)
      .map((hour) => ({ hour, rain: hour % 10 === 0 ? 1 : 0, speed: 4, direction: 200 }));
  const found = (some: Hour[]) => drivingRain(recordOf(hoursOf(some)));

  test('ten calendar years are ten years, leap days or not, and an annual average', () => {
    const ten = found(between(start(2010), start(2020)));
    expect(ten.coverage.years).toBe(10);
    expect(ten.notes.join(' ')).not.toContain('annual average');
    const mm = between(start(2010), start(2020)).reduce((sum, { rain }) => sum + rain, 0);
    expect(ten.rainMm).toBeCloseTo(mm / 10, 4);
    expect(ten.rose.airfieldIndex[20]).toBeCloseTo((2 / 9) * 4 * (mm / 10), 6);
    expect(ten.rose.years).toBe(10);
  });

  test('part years divide by the part: a year and a half gives the rain of a year', () => {
    const part = found(between(start(2018, 7), start(2020)));
    expect(part.coverage.years).toBeCloseTo(1 + 184 / 365, 12);
    expect(part.rainMm).toBeCloseTo(876, -1);
    expect(part.notes[0]).toBe('1.5 years: not an annual average.');
    expect(part.notes).toContain(
      'The months of the year are not covered alike, so some seasons weigh more than in a year.',
    );
  });

  test('missing hours are not counted as years, so they do not thin the rain', () => {
    const gaps = found(between(start(2010), start(2020), (hour) => hour % 7 < 5));
    expect(gaps.coverage.years).toBeCloseTo(50 / 7, 2);
    expect(gaps.rainMm).toBeCloseTo(876, -1);
    expect(gaps.notes[0]).toBe('7.1 years: not an annual average.');
    expect(gaps.notes[1]).toContain('have no row and 0 a row without a rain figure');
  });

  test('one year less an hour is still a year, and has a class', () => {
    const year = found(between(start(2019), start(2020) - 1));
    expect(year.coverage.partYear).toBe(false);
    expect(year.index.class).toBe('moderate');
    expect(year.index.m2PerS).toBeCloseTo(0.876 * 4, 2);
    expect(year.notes[0]).toBe('1 year: not an annual average.');
  });

  test('a file that holds wet hours only is counted from its first hour to its last', () => {
    const wet = found(between(start(2010), start(2020), (hour) => hour % 10 === 0));
    expect(wet.coverage.dryHoursLeftOut).toBe(true);
    expect(wet.coverage.years).toBeCloseTo(10, 2);
    expect(wet.rainMm).toBeCloseTo(876.6, 0);
    expect(wet.index).toEqual({ m2PerS: null, class: null });
    expect(wet.notes[0]).toContain('the other hours are taken as dry');
  });

  test('where rain is blank in dry hours but wind is not, the mean wind of all hours still gives an index', () => {
    const all = between(start(2010), start(2020)).map((hour) =>
      hour.rain === 0 ? { ...hour, rain: Number.NaN, speed: 2 } : hour,
    );
    const blank = found(all);
    expect(blank.rainMm).toBeCloseTo(876.5, 0);
    expect(blank.meanWind).toBeCloseTo(2.2, 4);
    expect(blank.index).toEqual({ m2PerS: expect.closeTo(0.8765 * 2.2, 2), class: 'sheltered' });
  });
});
