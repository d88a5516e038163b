import { type Random, seeded, unit } from '../../analysis/sample/random.ts';
import type { Population } from '../../analysis/sample/types.ts';
import { tiers } from '../../analysis/session-types.ts';

const materials = ['stucco', 'adhered_stone', 'eifs'];

const column = (n: number, of: (i: number) => number): Float64Array =>
  Float64Array.from({ length: n }, (_, i) => of(i));

/** Walls of invented buildings, four to each, scattered over a county; the same for the same seed. */
export function walls(n: number, seed = 1): Population {
  const random: Random = seeded(seed);
  const spots = Array.from({ length: Math.ceil(n / 4) }, () => [unit(random), unit(random)]);
  const index = column(n, () => Math.round(60 * unit(random) * 1e6) / 1e6);
  return {
    unit: 'wall',
    n,
    id: Array.from({ length: n }, (_, i) => `w${String(i).padStart(5, '0')}`),
    cluster: Array.from({ length: n }, (_, i) => `b${Math.floor(i / 4)}`),
    tier: Array.from(index, (x) => tiers[[40, 25, 8, 0].findIndex((least) => x >= least)]!),
    material: Array.from({ length: n }, () => materials[Math.floor(unit(random) * 3)]!),
    installed: column(n, () => 1970 + Math.floor(unit(random) * 50)),
    azimuthDeg: column(n, (i) => (i % 4) * 90),
    heightM: column(n, () => 3 + 30 * unit(random)),
    latitude: column(n, (i) => 47 + spots[Math.floor(i / 4)]![0]!),
    longitude: column(n, (i) => -123 + spots[Math.floor(i / 4)]![1]!),
    areaM2: column(n, () => 20 + Math.floor(200 * unit(random))),
    wetting: column(n, () => 20 + Math.round(300 * unit(random) ** 2 * 1e5) / 1e5),
    index,
  };
}

const texts = ['id', 'cluster', 'tier', 'material'] as const;
const numbers = [
  'installed',
  'azimuthDeg',
  'heightM',
  'latitude',
  'longitude',
  'areaM2',
  'wetting',
  'index',
] as const;

/** The same units in another order. */
export function reordered(population: Population, order: readonly number[]): Population {
  const changed: Record<string, unknown> = {};
  for (const name of texts) changed[name] = order.map((i) => population[name][i]!);
  for (const name of numbers) changed[name] = Float64Array.from(order, (i) => population[name][i]!);
  return { ...population, ...changed, n: order.length };
}
