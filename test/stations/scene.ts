import fc from 'fast-check';
import type { Adjusting } from '../../analysis/stations/fit.ts';
import { ownStations } from '../../analysis/stations/fit.ts';
import { networkOf, type Stations } from '../../analysis/stations/network.ts';

/** A station for tests: degrees, normal and grid value in mm. */
export interface TestStation {
  readonly longitude: number;
  readonly latitude: number;
  readonly mm: number;
  readonly gridMm: number;
}

export const stationsOf = (list: readonly TestStation[]): Stations => ({
  n: list.length,
  longitude: Float64Array.from(list, (s) => s.longitude),
  latitude: Float64Array.from(list, (s) => s.latitude),
  mm: Float64Array.from(list, (s) => s.mm),
  gridMm: Float64Array.from(list, (s) => s.gridMm),
  row: Int32Array.from(list, (_, i) => i + 2),
  name: list.map((_, i) => `station ${i + 1}`),
});

/** An adjustment with a model given, not fitted. */
export function adjusting(stations: Stations, rest: Partial<Adjusting> = {}): Adjusting {
  const settings = rest.settings ?? ownStations;
  const network = networkOf(stations, settings.shift);
  return {
    on: true,
    network,
    shape: { range: 500, nugget: 0.1 },
    sill: 0.1,
    lambda: 1,
    gridSd: network.gridSd,
    check: [],
    settings,
    ...rest,
  };
}

/** A linear congruential sequence in 0 ≤ x < 1 (Numerical Recipes, ranqd1; from memory): the same on every run. */
export function sequence(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1664525 + 1013904223) % 2 ** 32;
    return state / 2 ** 32;
  };
}

/** Points spread evenly over the sphere. */
export const pointOnSphere = fc
  .record({
    across: fc.double({ min: 0, max: 1, noNaN: true }),
    up: fc.double({ min: -1, max: 1, noNaN: true }),
  })
  .map(({ across, up }) => ({
    longitude: across * 360 - 180,
    latitude: (Math.asin(up) * 180) / Math.PI,
  }));

/** Rain that follows the grid loosely, and the sea of noise that stations swim in: n stations in a box of degrees. */
export function region(
  n: number,
  seed: number,
  [west, south, east, north]: readonly [number, number, number, number],
): TestStation[] {
  const random = sequence(seed);
  return Array.from({ length: n }, () => {
    const longitude = west + (east - west) * random();
    const latitude = south + (north - south) * random();
    const { gridMm, mm } = rainAt(longitude, latitude);
    return { longitude, latitude, gridMm, mm: mm * Math.exp(0.06 * (random() + random() - 1)) };
  });
}

/** An invented climate: what a coarse grid says, and what falls. */
export function rainAt(longitude: number, latitude: number): { gridMm: number; mm: number } {
  const ln = 6.6 + 0.5 * Math.sin(longitude / 9) + 0.4 * Math.cos(latitude / 6);
  const local = 0.3 * Math.sin(longitude / 3) * Math.cos(latitude / 2.5);
  return { gridMm: Math.exp(ln), mm: Math.exp(6.3 + 0.8 * (ln - 6.6) + local) };
}
