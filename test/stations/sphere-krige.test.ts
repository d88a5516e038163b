import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { haversineKm } from '../../analysis/rain/great-circle.ts';
import { keptCorrelations } from '../../analysis/stations/correlation.ts';
import { krigeGlobal, krigeLocal } from '../../analysis/stations/krige.ts';
import { leaveOutGlobal, oneByOne } from '../../analysis/stations/leave-out.ts';
import { searchOf } from '../../analysis/stations/nearest.ts';
import { networkOf, placesOf } from '../../analysis/stations/network.ts';
import { positions } from '../../analysis/stations/sphere.ts';
import { denseKriging } from './dense.ts';
import { pointOnSphere, rainAt, region, sequence, stationsOf, type TestStation } from './scene.ts';

type Point = Pick<TestStation, 'longitude' | 'latitude'> & { readonly gridMm?: number };

const shape = { range: 700, nugget: 0.15 };
const km = (a: Point, b: Point) => haversineKm(a.longitude, a.latitude, b.longitude, b.latitude);

/** Estimates of ln rain and variances at places whose grid value is the climate's, from all or from the nearest. */
function krige(list: readonly TestStation[], at: readonly Point[], most = Number.NaN, of = shape) {
  const network = networkOf(stationsOf(list), 0);
  const points = positions(
    Float64Array.from(at, (p) => p.longitude),
    Float64Array.from(at, (p) => p.latitude),
  );
  const gridMm = Float64Array.from(at, (p) => gridOf(p));
  const places = placesOf(network, points, gridMm);
  const search = searchOf(network.tree, most || 1);
  const kriged = Number.isNaN(most)
    ? krigeGlobal(network.adjusted, of, places)
    : krigeLocal(
        network.adjusted,
        of,
        places,
        (t, ids) => {
          const found = search.find(points, t);
          ids.set(search.ids);
          return found;
        },
        most,
      );
  return { estimate: kriged.estimate.map((z) => z + network.level), variance: kriged.variance };
}

const gridOf = (p: Point): number => p.gridMm ?? rainAt(p.longitude, p.latitude).gridMm;

/** The same by Gaussian elimination on the bordered system, with distances from `rain/great-circle.ts`. */
const plain = (list: readonly TestStation[], at: Point) =>
  denseKriging({
    z: list.map((s) => Math.log(s.mm)),
    drift: list.map((s) => [1, Math.log(s.gridMm)]),
    distance: (i, j) => km(list[i]!, list[j]!),
    toPlace: (i) => km(list[i]!, at),
    placeDrift: [1, Math.log(gridOf(at))],
    ...shape,
  });

const country = region(90, 11, [-125, 25, -67, 49]);
const towns = region(40, 12, [-130, 20, -60, 55]);

describe('kriging on the sphere', () => {
  test('equals a plain solve of the bordered system, from all stations', () => {
    const { estimate, variance } = krige(country, towns);
    towns.forEach((town, t) => {
      const expected = plain(country, town);
      expect(Math.abs(estimate[t]! - expected.estimate)).toBeLessThan(1e-9);
      expect(Math.abs(variance[t]! - expected.variance)).toBeLessThan(1e-9);
    });
  });

  test('equals a plain solve of the bordered system, from the 32 nearest', () => {
    const { estimate, variance } = krige(country, towns, 32);
    towns.forEach((town, t) => {
      const near = [...country].sort((a, b) => km(a, town) - km(b, town)).slice(0, 32);
      const expected = plain(near, town);
      expect(Math.abs(estimate[t]! - expected.estimate)).toBeLessThan(1e-9);
      expect(Math.abs(variance[t]! - expected.variance)).toBeLessThan(1e-9);
    });
  });

  test('the nearest of as many as there are is all of them', () => {
    const whole = krige(country, towns);
    const nearest = krige(country, towns, country.length);
    whole.estimate.forEach((z, t) => {
      expect(nearest.estimate[t]).toBeCloseTo(z, 10);
      expect(nearest.variance[t]).toBeCloseTo(whole.variance[t]!, 10);
    });
  });

  test('does not change when stations and places turn together on the globe', () => {
    const turn = fc.tuple(pointOnSphere, fc.double({ min: 0, max: 360, noNaN: true }));
    const before = krige(country, towns, 32);
    fc.assert(
      fc.property(turn, ([pole, angle]) => {
        const moved = <T extends Point>(p: T): T & { gridMm: number } => ({
          ...p,
          gridMm: gridOf(p),
          ...turned(p, pole, angle),
        });
        const after = krige(country.map(moved), towns.map(moved), 32);
        before.estimate.forEach((z, t) => {
          expect(after.estimate[t]).toBeCloseTo(z, 8);
          expect(after.variance[t]).toBeCloseTo(before.variance[t]!, 8);
        });
      }),
      { seed: 4, numRuns: 20 },
    );
  });

  test('does not depend on the order of stations or places', () => {
    const random = sequence(5);
    const shuffled = country.map((s) => ({ s, key: random() })).sort((a, b) => a.key - b.key);
    const before = krige(country, towns, 32);
    const after = krige(
      shuffled.map(({ s }) => s),
      [...towns].reverse(),
      32,
    );
    before.estimate.forEach((z, t) => {
      expect(after.estimate[towns.length - 1 - t]).toBeCloseTo(z, 10);
    });
  });

  test('a place between two mirrored stations takes the mean of their logarithms', () => {
    const flat = (longitude: number, latitude: number, mm: number) => ({
      longitude,
      latitude,
      mm,
      gridMm: 800,
    });
    const mirrored = [flat(-10, 40, 500), flat(10, 40, 2000)];
    const { estimate } = krige(mirrored, [{ longitude: 0, latitude: 30, gridMm: 800 }]);
    expect(Math.exp(estimate[0]!)).toBeCloseTo(1000, 8);
  });
});

/** A point turned by an angle (degrees) about an axis through another: Rodrigues' rotation formula. */
function turned(p: Point, pole: Point, degrees: number): Point {
  const vector = ({ longitude, latitude }: Point) => {
    const at = positions(Float64Array.of(longitude), Float64Array.of(latitude));
    return [at.x[0]!, at.y[0]!, at.z[0]!] as const;
  };
  const v = vector(p);
  const k = vector(pole);
  const angle = (degrees * Math.PI) / 180;
  const along = k[0] * v[0] + k[1] * v[1] + k[2] * v[2];
  const across = [k[1] * v[2] - k[2] * v[1], k[2] * v[0] - k[0] * v[2], k[0] * v[1] - k[1] * v[0]];
  const [x, y, z] = v.map(
    (value, i) =>
      value * Math.cos(angle) +
      across[i]! * Math.sin(angle) +
      k[i]! * along * (1 - Math.cos(angle)),
  ) as [number, number, number];
  const toDegrees = 180 / Math.PI;
  return {
    longitude: Math.atan2(y, x) * toDegrees,
    latitude: Math.atan2(z, Math.hypot(x, y)) * toDegrees,
  };
}

describe('limits of the model', () => {
  const here = country[17]!;
  const station = { longitude: here.longitude, latitude: here.latitude, gridMm: here.gridMm };

  test('the less the nugget, the nearer the estimate at a station comes to its normal', () => {
    const off = [1, 0.1, 0.01, 1e-4, 1e-7].map((nugget) => {
      const { estimate } = krige(country, [station], Number.NaN, { range: 700, nugget });
      return Math.abs(estimate[0]! - Math.log(here.mm));
    });
    off.slice(1).forEach((x, k) => {
      expect(x).toBeLessThan(off[k]!);
    });
    expect(off.at(-1)).toBeLessThan(1e-6);
  });

  test('a place on a station is still a place: its variance is above the nugget', () => {
    for (const nugget of [0.01, 0.1, 1]) {
      const { variance } = krige(country, [station], Number.NaN, { range: 700, nugget });
      expect(variance[0]).toBeGreaterThan(nugget);
    }
  });

  test('going away from a group of stations the variance never falls, and ends above sill and nugget', () => {
    const group = region(12, 3, [-100, 38, -98, 40]).map((s) => ({ ...s, gridMm: 700 }));
    const away = Array.from({ length: 60 }, (_, i) => ({
      longitude: -97.9 + i,
      latitude: 39,
      gridMm: 700,
    }));
    const { variance } = krige(group, away);
    variance.slice(1).forEach((v, t) => {
      expect(v).toBeGreaterThan(variance[t]!);
    });
    expect(variance.at(-1)).toBeGreaterThan(1 + shape.nugget);
  });

  test('far from every station the estimate is the drift, fitted by generalised least squares', () => {
    const far = { longitude: 60, latitude: -30, gridMm: 900 };
    const [z] = krige(country, [far], Number.NaN, { range: 50, nugget: 1000 }).estimate;
    // With next to no correlation that is the regression line of ln rain on ln grid.
    const x = country.map((s) => Math.log(s.gridMm));
    const y = country.map((s) => Math.log(s.mm));
    const average = (v: readonly number[]) => v.reduce((a, b) => a + b, 0) / v.length;
    const [mx, my] = [average(x), average(y)];
    const slope =
      average(x.map((v, i) => (v - mx) * (y[i]! - my))) / average(x.map((v) => (v - mx) ** 2));
    expect(z).toBeCloseTo(my + slope * (Math.log(900) - mx), 3);
  });

  test('where neighbours all have one grid value the drift is a level, and nothing breaks', () => {
    const level = country.map((s) => ({ ...s, gridMm: 812 }));
    const { estimate } = krige(level, [{ ...towns[0]!, gridMm: 812 }], 32);
    const near = [...level].sort((a, b) => km(a, towns[0]!) - km(b, towns[0]!)).slice(0, 32);
    const expected = denseKriging({
      z: near.map((s) => Math.log(s.mm)),
      drift: near.map(() => [1]),
      distance: (i, j) => km(near[i]!, near[j]!),
      toPlace: (i) => km(near[i]!, towns[0]!),
      placeDrift: [1],
      ...shape,
    });
    expect(estimate[0]).toBeCloseTo(expected.estimate, 9);
  });

  test('two data at one place without a nugget are a mistake of the caller', () => {
    const twice = [country[0]!, { ...country[0]!, mm: 1 }, country[1]!];
    expect(() => krige(twice, [towns[0]!], Number.NaN, { range: 500, nugget: 0 })).toThrow(
      'coincide',
    );
  });
});

test('what is foretold of a station left out is what kriging without it says', () => {
  const network = networkOf(stationsOf(country), 0);
  const { error, variance } = leaveOutGlobal(network.adjusted, shape, oneByOne(country.length));
  country.forEach((left, i) => {
    const expected = plain(
      country.filter((_, j) => j !== i),
      left,
    );
    expect(error[i]).toBeCloseTo(Math.log(left.mm) - expected.estimate, 8);
    expect(variance[i]).toBeCloseTo(expected.variance, 8);
  });
});

test('correlations kept for later are the same after more data came by than are kept', () => {
  const between = (i: number, j: number) => Math.abs(i - j);
  const kept = keptCorrelations(between, { range: 90, nugget: 0 }, 1000);
  const random = sequence(8);
  for (let k = 0; k < 20_000; k++) {
    const [i, j] = [Math.floor(random() * 1000), Math.floor(random() * 1000)];
    expect(kept(i, j)).toBe(Math.exp(-between(i, j) / 90));
  }
});
