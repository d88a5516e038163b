import type { Held } from '../sift/held.ts';
import type { ExposureColumns } from './types.ts';

/** The columns of the ranking that exposure is counted from. */
export async function exposureColumns(held: Held): Promise<ExposureColumns> {
  await held.ahead([
    'index_low',
    'index_high',
    'scored_area_m2',
    'index_weighted_area_m2',
    'insured_value',
    'building_count',
    'height_used_m',
    'installed_used',
    'longitude',
    'latitude',
  ]);
  const tier = async (name: string) => Uint8Array.from((await held.category(name)).codes);
  return {
    n: held.n,
    tier: await tier('tier'),
    tierLow: await tier('tier_low'),
    tierHigh: await tier('tier_high'),
    index: await held.number('index'),
    indexLow: await held.number('index_low'),
    indexHigh: await held.number('index_high'),
    region: await held.category('region'),
    currency: await held.category('currency'),
    placeSource: await held.category('place_source'),
    material: await held.category('material'),
    heightM: await held.number('height_used_m'),
    installed: await held.number('installed_used'),
    wallAreaM2: await held.number('scored_area_m2'),
    weightedAreaM2: await held.number('index_weighted_area_m2'),
    insuredValue: await held.number('insured_value'),
    buildingCount: await held.number('building_count'),
    longitude: await held.number('longitude'),
    latitude: await held.number('latitude'),
  };
}
