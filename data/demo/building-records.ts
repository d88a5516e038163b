import type { Random } from '../../analysis/sample/random.ts';
import { between, chance } from './random.ts';
import { type Cells, clerk } from './records.ts';
import type { Building, Development } from './scenario.ts';
import { words } from './tables.ts';

export const buildingHeadings = [
  'building_id',
  'name',
  'address',
  'city',
  'region',
  'postal_code',
  'latitude',
  'longitude',
  'year_built',
  'reclad_year',
  'storeys',
  'height_m',
  'use',
  'construction_type',
  'terrain',
  'roof',
  'climate_zone',
  'moisture_index',
  'hdd18_c',
  'mean_temp_c',
  'insured_value',
  'currency',
  'wall_area_m2',
  'building_count',
  'leak_history',
  'overhang_mm',
  'distance_to_coast_km',
  'obstruction_m',
  'trust_ref',
  'scheme',
  'warden',
  'last_visited',
] as const;

const padded = (x: number, width: number): string => String(x).padStart(width, '0');

export const idOf = ({ development: d, block }: Building): string =>
  `${d.town.code}-${padded(d.ordinal, 4)}-${padded(block + 1, 2)}`;

const houseNumber = ({ block, development: d }: Building): number =>
  4 + 2 * block + (d.ordinal % 40) * 6;

function nameOf(b: Building): string {
  const d = b.development;
  if (d.kind.name === 'house') return '';
  return d.blocks === 1 ? d.name : `${d.name}, Block ${words('blocks')[b.block]}`;
}

const thousands = (x: number): string => String(x).replace(/\B(?=(\d{3})+$)/g, ',');

/** Money as people type it: mostly plain, sometimes with commas and a sign. */
function money(random: Random, value: number): string {
  if (chance(random, 80)) return String(value);
  return chance(random, 50) ? thousands(value) : `$${thousands(value)}`;
}

function insuredValue(random: Random, b: Building): number {
  const { kind, town } = b.development;
  const floor = b.frontM * b.depthM * b.storeys;
  const perM2 = kind.valueM2 * (town.country === 'CA' ? 1.3 : 1) * (between(random, 80, 125) / 100);
  return Math.round((floor * perM2) / 1000) * 1000;
}

/** Leaks come more often where it is wet and nothing drains behind a cladding that holds water. */
function leakHistory(random: Random, { town, main }: Development): string {
  const bare = ['none', 'single_paper', 'felt_1'].includes(main.drainage);
  if (!chance(random, town.climate.leakPct * (bare ? 1.6 : 0.5))) return 'none';
  return chance(random, 50) ? 'reported' : 'repaired';
}

function coastKm(random: Random, { town }: Development): string {
  return Number.isNaN(town.coastKm)
    ? ''
    : String(Math.max(0.2, town.coastKm + between(random, -20, 20) / 10));
}

/** The row of a building in the trust's list. `row` counts from 1 and makes the trust's own key. */
export function buildingCells(random: Random, b: Building, row: number): Cells {
  const d = b.development;
  const { town, kind } = d;
  const { kept, spelt } = clerk(random, 'buildings', d.gaps);
  const steep = d.roof === 'steep';
  return [
    idOf(b),
    kept('name', nameOf(b)),
    kept('address', `${houseNumber(b)} ${d.address}`),
    town.city,
    town.region,
    kept('postal_code', d.place.postalCode),
    String(b.latitude),
    String(b.longitude),
    kept('year_built', d.yearBuilt),
    d.reclad === 0 ? '' : String(d.reclad),
    kept('storeys', b.storeys),
    kept('height_m', b.heightM),
    spelt('use', kind.use),
    spelt('construction_type', kind.construction),
    spelt('terrain', b.terrain),
    spelt('roof', d.roof),
    kept('climate_zone', town.climateZone),
    kept('moisture_index', town.moistureIndex),
    kept('hdd18_c', town.hdd18),
    kept('mean_temp_c', town.meanTemp),
    kept('insured_value', money(random, insuredValue(random, b))),
    spelt('currency', town.country === 'CA' ? 'CAD' : 'USD'),
    kept('wall_area_m2', b.wallArea),
    kept('building_count', kind.name === 'house' && chance(random, 20) ? between(random, 2, 6) : 1),
    spelt('leak_history', leakHistory(random, d)),
    kept('overhang_mm', 50 * (steep ? between(random, 4, 18) : between(random, 0, 5))),
    kept('distance_to_coast_km', coastKm(random, d)),
    kept('obstruction_m', between(random, 5, 70)),
    `LHT/${town.region}/${padded(row, 6)}`,
    d.name,
    d.warden,
    String(between(random, 2013, 2025)),
  ];
}
