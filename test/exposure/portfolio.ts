import type { ExposureColumns } from '../../analysis/exposure/types.ts';
import { type Random, seeded, unit } from '../../analysis/sample/random.ts';

interface Shape {
  readonly seed?: number;
  /** Towns among which the buildings are scattered, and how far about each, degrees. */
  readonly towns?: readonly (readonly [longitude: number, latitude: number])[];
  readonly spread?: number;
  /** Share of values that are not on record. */
  readonly blank?: number;
}

const somewhere = [
  [-122.33, 47.61],
  [-123.1, 44.05],
  [-88.04, 30.69],
  [-71.06, 42.36],
  [179.98, -16.5],
  [-179.97, -16.6],
] as const;

const regions = ['Alabama', 'Fiji', 'Massachusetts', 'Oregon', 'Washington'];
const currencies = ['CAD', 'USD'];
const materials = ['adhered_stone', 'eifs', 'stucco'];
const cuts = [40, 25, 8];

/** Bell-shaped enough: a town is dense in the middle. */
const bell = (random: Random): number => unit(random) + unit(random) + unit(random) - 1.5;

const tierOf = (index: number): number =>
  Number.isNaN(index) ? 4 : cuts.filter((cut) => index < cut).length;

/** Invented lines about towns on both sides of the 180th meridian, with blanks everywhere; the same for the same seed. */
export function portfolio(
  n: number,
  { seed = 1, towns = somewhere, spread = 0.1, blank = 0.1 }: Shape = {},
): ExposureColumns {
  const random = seeded(seed);
  const numbers = (of: (i: number) => number) => Float64Array.from({ length: n }, (_, i) => of(i));
  const maybe = (value: number) => (unit(random) < blank ? Number.NaN : value);
  const words = (list: readonly string[]) => ({
    codes: Int32Array.from({ length: n }, () =>
      unit(random) < blank ? -1 : Math.floor(unit(random) * list.length),
    ),
    words: list,
  });
  const town = Array.from(
    { length: n },
    () => towns[Math.floor(unit(random) ** 2 * towns.length)]!,
  );
  const index = numbers(() => maybe(Math.round(6000 * unit(random) ** 2) / 100));
  const indexLow = index.map((x) => Math.round(x * 70 * unit(random)) / 100);
  const indexHigh = index.map((x) => Math.round((x + (100 - x) * unit(random) * 0.6) * 100) / 100);
  const wrapped = (lon: number) => (lon > 180 ? lon - 360 : lon < -180 ? lon + 360 : lon);
  return {
    n,
    index,
    indexLow,
    indexHigh,
    tier: Uint8Array.from(index, tierOf),
    tierLow: Uint8Array.from(indexLow, tierOf),
    tierHigh: Uint8Array.from(indexHigh, tierOf),
    region: words(regions),
    currency: words(currencies),
    placeSource: words(['coordinates', 'postal centroid']),
    material: words(materials),
    heightM: numbers(() => maybe(3 + Math.round(700 * unit(random) ** 3) / 10)),
    installed: numbers(() => maybe(1960 + Math.floor(unit(random) * 65))),
    wallAreaM2: numbers(() => maybe(Math.round(3e6 * unit(random)) / 1000)),
    weightedAreaM2: numbers(() => maybe(Math.round(3e4 * unit(random)) / 100)),
    insuredValue: numbers(() => maybe(Math.round(5e9 * unit(random) ** 4) / 100)),
    buildingCount: numbers(() => (unit(random) < 0.7 ? Number.NaN : Math.ceil(9 * unit(random)))),
    longitude: numbers((i) => maybe(wrapped(town[i]![0] + 2 * spread * bell(random)))),
    latitude: numbers((i) => maybe(town[i]![1] + 2 * spread * bell(random))),
  };
}

export const everyLine = (n: number): Int32Array => Int32Array.from({ length: n }, (_, b) => b);

/** Lines drawn by a seed, in no order. */
export function someLines(n: number, seed: number): Int32Array {
  const random = seeded(seed);
  const drawn = Array.from({ length: n }, (_, b) => [unit(random), b] as const);
  return Int32Array.from(
    drawn
      .filter(([share]) => share < 0.6)
      .sort(([a], [b]) => a - b)
      .map(([, b]) => b),
  );
}
