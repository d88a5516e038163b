import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { haversineKm } from '../../analysis/rain/great-circle.ts';
import { figures } from '../../analysis/stations/check.ts';
import { candidates } from '../../analysis/stations/choose.ts';
import { searchValue, searchValues } from '../../analysis/stations/constants.ts';
import { type Fit, fitStations, ownStations } from '../../analysis/stations/fit.ts';
import { cellsOf } from '../../analysis/stations/network.ts';
import { denseKriging } from './dense.ts';
import { region, sequence, stationsOf, type TestStation } from './scene.ts';

const country = region(36, 21, [-120, 28, -75, 48]);

const why = (fit: Fit): string => {
  if (fit.on) throw new Error('the adjustment is on');
  return fit.why;
};

/** Errors and unit variances of every station left out, by a plain solve for each. */
function plainly(list: readonly TestStation[], range: number, nugget: number) {
  return list.map((left, i) => {
    const others = list.filter((_, j) => j !== i);
    const km = (a: TestStation, b: TestStation) =>
      haversineKm(a.longitude, a.latitude, b.longitude, b.latitude);
    const { estimate, variance } = denseKriging({
      z: others.map((s) => Math.log(s.mm)),
      drift: others.map((s) => [1, Math.log(s.gridMm)]),
      distance: (a, b) => km(others[a]!, others[b]!),
      toPlace: (a) => km(others[a]!, left),
      placeDrift: [1, Math.log(left.gridMm)],
      range,
      nugget,
    });
    return { error: Math.log(left.mm) - estimate, variance };
  });
}

const rmse = (errors: readonly { readonly error: number }[]): number =>
  Math.sqrt(errors.reduce((sum, { error }) => sum + error * error, 0) / errors.length);

describe('fitting', () => {
  const fit = fitStations(stationsOf(country));
  if (!fit.on) throw new Error(fit.why);

  test('tries every pair of the table and takes the one with the least error, station by station', () => {
    expect(candidates.length).toBe(searchValues('range_km').length * searchValues('nugget').length);
    const errors = candidates.map(({ range, nugget }) => rmse(plainly(country, range, nugget)));
    expect(fit.shape).toEqual(candidates[errors.indexOf(Math.min(...errors))]);
  });

  test('λ is the 80 % quantile of |error| / s over 1.2816 (R quantile, type 1)', () => {
    const left = plainly(country, fit.shape.range, fit.shape.nugget);
    const ratios = left.map((x) => Math.abs(x.error) / Math.sqrt(fit.sill * x.variance));
    const sorted = ratios.sort((a, b) => a - b);
    expect(fit.lambda).toBeCloseTo(sorted[Math.ceil(0.8 * 36) - 1]! / 1.2816, 8);
  });

  test('with fewer stations than the table says λ is 1', () => {
    const few = fitStations(stationsOf(country.slice(0, searchValue('lambda_stations') - 1)));
    expect(few.on && few.lambda).toBe(1);
  });

  test('s_grid is the standard deviation of ln station − ln grid', () => {
    const difference = country.map((s) => Math.log(s.mm / s.gridMm));
    const average = difference.reduce((a, b) => a + b) / 36;
    const squares = difference.reduce((sum, x) => sum + (x - average) ** 2, 0);
    expect(fit.gridSd).toBeCloseTo(Math.sqrt(squares / 35), 10);
  });

  test('a shift of all periods changes neither range, nugget, sill nor λ', () => {
    const later = fitStations(stationsOf(country), { ...ownStations, shift: 0.3 });
    if (!later.on) throw new Error(later.why);
    expect(later.shape).toEqual(fit.shape);
    expect(later.sill).toBeCloseTo(fit.sill, 10);
    expect(later.lambda).toBeCloseTo(fit.lambda, 10);
    expect(later.check.length).toBe(2 * fit.check.length);
  });

  test('nor does another unit of rain change range and nugget', () => {
    const inches = country.map((s) => ({ ...s, mm: s.mm / 25.4 }));
    const other = fitStations(stationsOf(inches));
    expect(other.on && other.shape).toEqual(fit.shape);
  });

  test('a station without which nothing would be told of the slope is not foretold, the others are', () => {
    const but = country.map((s, i) => ({ ...s, gridMm: i === 0 ? 900 : 812.4 }));
    expect(fitStations(stationsOf(but)).check.map(({ n }) => n)).toEqual([35, 36, 35, 35, 36, 35]);
  });
});

describe('many stations, each place from its 32 nearest', () => {
  const many = region(700, 31, [-120, 28, -75, 48]);
  const fit = fitStations(stationsOf(many));
  if (!fit.on) throw new Error(fit.why);

  test('every station is left out in the check, and four of five fall within the interval', () => {
    const [grid, alone, adjusted] = fit.check;
    expect([grid!.n, alone!.n, adjusted!.n]).toEqual([700, 700, 700]);
    expect(adjusted!.within).toBeCloseTo(0.8, 2);
    expect(adjusted!.rmseLn).toBeLessThan(grid!.rmseLn / 2);
  });

  test('leaving out whole cells makes it harder', () => {
    const by = (leftOut: string) =>
      fit.check.find((row) => row.estimate === 'adjusted' && row.leftOut === leftOut)!;
    expect(by('by cells').rmseLn).toBeGreaterThan(by('one by one').rmseLn);
  });
});

describe('the adjustment is off for the whole run, and says so', () => {
  test('without stations, with one, with two', () => {
    expect(why(fitStations(stationsOf([])))).toBe(
      'There is no station to adjust the grid by, so rain is the grid’s alone.',
    );
    expect(why(fitStations(stationsOf(country.slice(0, 1))))).toBe(
      'Only one station is of use; at least 3 are needed to adjust the grid, so rain is the grid’s alone.',
    );
    expect(why(fitStations(stationsOf(country.slice(0, 2))))).toContain('Only 2 stations are');
  });

  test('where the grid has one value at all stations', () => {
    const same = country.map((s) => ({ ...s, gridMm: 812.4 }));
    expect(why(fitStations(stationsOf(same)))).toBe(
      'The grid has the same rain (812 mm) at all 36 stations, so it cannot be told how rain follows the grid, so rain is the grid’s alone.',
    );
  });

  test('where stations left out are foretold no better than by the grid alone', () => {
    const random = sequence(77);
    const noise = country.map((s) => ({ ...s, mm: s.gridMm * Math.exp(0.4 * (random() - 0.5)) }));
    const fit = fitStations(stationsOf(noise));
    expect(why(fit)).toMatch(/no better with the others \(error of ln rain 0\.\d{3}\)/);
    const [grid, , adjusted] = fit.check;
    expect(adjusted!.rmseLn).toBeGreaterThanOrEqual(grid!.rmseLn);
    expect(fit.gridSd).toBeGreaterThan(0);
  });

  test('three stations are enough to try', () => {
    const fit = fitStations(stationsOf(country.slice(0, 3)));
    expect(fit.check.length).toBe(6);
    expect(Number.isFinite(fit.check[2]!.rmseLn)).toBe(true);
  });
});

describe('the figures of the check', () => {
  // By hand: stations 10, 20, 30, 40 in; estimates 12, 18, 33, 41 in.
  const ln = (inches: readonly number[]) => inches.map((x) => Math.log(x * 25.4));
  const got = figures({ station: ln([10, 20, 30, 40]), estimate: ln([12, 18, 33, 41]) }, 508.001);

  test('root mean square 2.1213 in, mean 1 in, r 0.9864 by hand', () => {
    expect(got.rmseIn).toBeCloseTo(Math.sqrt(18 / 4), 4);
    expect(got.biasIn).toBeCloseTo(1, 4);
    // Σ(x−25)(y−26) = 510, Σ(x−25)² = 500, Σ(y−26)² = 534.
    expect(got.correlation).toBeCloseTo(510 / Math.sqrt(500 * 534), 4);
  });

  test('agreement is the share on the same side of the threshold', () => {
    expect(got.agreement).toBe(1);
    const other = figures({ station: ln([10, 21, 30]), estimate: ln([12, 18, 33]) }, 508);
    expect(other.agreement).toBeCloseTo(2 / 3, 3.9);
    // 20.0 in is 508 mm, not over it.
    const at = figures({ station: ln([20, 20]), estimate: ln([20, 20.01]) }, 508);
    expect(at.agreement).toBe(0.5);
  });
});

test('every value of data/stations/search.csv is a number with a unit and a source', () => {
  const text = readFileSync(new URL('../../data/stations/search.csv', import.meta.url), 'utf8');
  const { data } = Papa.parse(text, { header: true, skipEmptyLines: true });
  for (const row of data as unknown as Record<string, string>[]) {
    expect(Object.keys(row)).toEqual(['name', 'value', 'unit', 'meaning', 'source']);
    expect(Number(row.value)).toBeGreaterThan(0);
    expect(row.unit).not.toBe('');
    expect(row.source).toMatch(/^judgement/);
  }
});

test('cells of two degrees hold what lies between even meridians and parallels', () => {
  const at = (longitude: number, latitude: number) => ({ longitude, latitude, mm: 1, gridMm: 1 });
  const cells = cellsOf(
    stationsOf([
      at(0.1, 0.1),
      at(1.9, 1.9),
      at(2.1, 0.1),
      at(-0.1, 0.1),
      at(0.1, -0.1),
      at(179.9, 1),
      at(-179.9, 1),
    ]),
    2,
  );
  expect(cells[0]).toBe(cells[1]);
  expect(new Set(cells).size).toBe(6);
});
