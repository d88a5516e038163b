import { describe, expect, test } from 'vitest';
import { type Kriged, krigeGlobal, krigeLocal } from '../../analysis/stations/krige.ts';
import {
  type LeftOut,
  leaveOutGlobal,
  leaveOutLocal,
  oneByOne,
} from '../../analysis/stations/leave-out.ts';
import {
  constantOnly,
  meuse,
  nearestOutside,
  nearestPlaces,
  places,
  reference,
  shape,
  sill,
} from './meuse.ts';

interface Expected {
  readonly estimate: readonly number[];
  readonly variance: readonly number[];
}

function expectKriged({ estimate, variance }: Kriged, expected: Expected): void {
  expect(estimate.length).toBe(expected.estimate.length);
  expected.estimate.forEach((value, t) => {
    expect(Math.abs(estimate[t]! - value)).toBeLessThan(1e-9);
    expect(Math.abs(sill * variance[t]! - expected.variance[t]!)).toBeLessThan(1e-9);
  });
}

// gstat 2.1.0, gstat::krige on sp::meuse, ln zinc ~ √dist, exponential psill 0.15, range 300, nugget 0.05.
describe('kriging with external drift equals R’s gstat::krige', () => {
  test('from all data, estimate and variance', () => {
    const kriged = krigeGlobal(meuse, shape, places);
    expectKriged(kriged, reference.global);
    // The figures of the reference table, typed.
    [7.038343622, 6.346128228, 4.851164994, 5.930056354].forEach((value, t) => {
      expect(kriged.estimate[t]).toBeCloseTo(value, 8);
    });
    [0.159410166, 0.0972950922, 0.1215133507, 0.1083824765].forEach((value, t) => {
      expect(sill * kriged.variance[t]!).toBeCloseTo(value, 9);
    });
  });

  test('from the 32 nearest, drift and residual both theirs', () => {
    const kriged = krigeLocal(meuse, shape, places, nearestPlaces, 32);
    expectKriged(kriged, reference.nmax32);
    [7.005133892, 6.350043384, 4.880515276, 5.930217613].forEach((value, t) => {
      expect(kriged.estimate[t]).toBeCloseTo(value, 8);
    });
    [0.17625368972, 0.09745605593, 0.12190744959, 0.10859126587].forEach((value, t) => {
      expect(sill * kriged.variance[t]!).toBeCloseTo(value, 9);
    });
  });

  test('without the drift it is ordinary kriging', () => {
    expectKriged(krigeGlobal(constantOnly(meuse), shape, constantOnly(places)), reference.ordinary);
  });
});

function expectLeftOut({ error, variance }: LeftOut, expected: Expected): void {
  expect(error.length).toBe(155);
  error.forEach((e, i) => {
    expect(Math.abs(meuse.z[i]! - e - expected.estimate[i]!)).toBeLessThan(1e-8);
    expect(Math.abs(sill * variance[i]! - expected.variance[i]!)).toBeLessThan(1e-8);
  });
}

// gstat 2.1.0, gstat::krige.cv on the same data.
describe('what is foretold of data left out equals R’s gstat::krige.cv', () => {
  const groups = oneByOne(155);
  const folds = Int32Array.from(reference.fold);
  const local = (of: Int32Array) => leaveOutLocal(meuse, shape, of, groups, nearestOutside, 32);

  test('one by one from all others', () => {
    expectLeftOut(leaveOutGlobal(meuse, shape, groups), reference.left_out_global);
  });

  test('one by one from the 32 nearest others', () => {
    expectLeftOut(local(groups), reference.left_out_nmax32);
  });

  test('in groups of unlike size from all data outside the group', () => {
    expectLeftOut(leaveOutGlobal(meuse, shape, folds), reference.left_out_folds);
  });

  test('in groups from the 32 nearest outside the group', () => {
    expectLeftOut(local(folds), reference.left_out_folds_nmax32);
  });
});
