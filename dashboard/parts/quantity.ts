import { type QuantityName, quantities as shared, type UnitSystem } from '../../analysis/units.ts';

/**
 * What kind of quantity a column holds, and how each kind is written in metric and American units.
 * One table for the whole page: a figure's unit and decimals are decided here and nowhere else. Factors that exports
 * use as well come from the analysis.
 */
export type Units = UnitSystem;

interface Writing {
  readonly unit: string;
  readonly decimals: number;
  /** Shown = stored × times + plus. Stored values are always metric. */
  readonly times: number;
  readonly plus?: number;
}

interface Quantity {
  readonly metric: Writing;
  readonly american: Writing;
}

const same = (unit: string, decimals: number): Quantity => {
  const writing = { unit, decimals, times: 1 };
  return { metric: writing, american: writing };
};

const pair = (
  metric: readonly [string, number],
  american: readonly [string, number, number, number?],
): Quantity => ({
  metric: { unit: metric[0], decimals: metric[1], times: 1 },
  american: {
    unit: american[0],
    decimals: american[1],
    times: american[2],
    plus: american[3] ?? 0,
  },
});

/** A quantity of the analysis, with the decimals a screen has room for. */
const ofAnalysis = (name: QuantityName, metric: number, american: number, per = ''): Quantity => ({
  metric: { unit: shared[name].metric + per, decimals: metric, times: 1 },
  american: { unit: shared[name].american + per, decimals: american, times: shared[name].factor },
});

/** Mile and degree Fahrenheit by definition. */
export const quantities = {
  rain: ofAnalysis('rain', 1, 1),
  wetting: ofAnalysis('wetting', 1, 2, ' yr'),
  gap: ofAnalysis('gap', 1, 2),
  height: ofAnalysis('height', 1, 0),
  area: ofAnalysis('area', 0, 0),
  far: pair(['km', 1], ['mi', 1, 1 / 1.609344]),
  speed: pair(['m/s', 1], ['mph', 1, 3600 / 1609.344]),
  temperature: pair(['°C', 1], ['°F', 1, 1.8, 32]),
  degreeDays: pair(['°C d', 0], ['°F d', 0, 1.8]),
  azimuth: same('°', 0),
  position: same('°', 4),
  index: same('', 2),
  share: same('', 3),
  probability: same('', 2),
  percent: same('%', 0),
  year: same('', 0),
  count: same('', 0),
  money: same('', 0),
  plain: same('', 4),
} satisfies Record<string, Quantity>;

export type Kind = keyof typeof quantities;

/** Kind of each numeric column of the contract, of the ranking and of a building's walls. */
export const columnKinds: Readonly<Record<string, Kind>> = {
  rank: 'count',
  latitude: 'position',
  longitude: 'position',
  rain_mm: 'rain',
  rain_low_mm: 'rain',
  rain_high_mm: 'rain',
  p_rain_over_threshold: 'probability',
  wetting_l_m2: 'wetting',
  gap_mm: 'gap',
  gap_asked_mm: 'gap',
  overhang_mm: 'gap',
  height_m: 'height',
  height_used_m: 'height',
  obstruction_m: 'height',
  area_m2: 'area',
  wall_area_m2: 'area',
  scored_area_m2: 'area',
  index_weighted_area_m2: 'area',
  distance_to_coast_km: 'far',
  mean_temp_c: 'temperature',
  hdd18_c: 'degreeDays',
  moisture_index: 'share',
  azimuth_deg: 'azimuth',
  index: 'index',
  index_low: 'index',
  index_high: 'index',
  index_spread: 'index',
  w: 'share',
  d: 'share',
  s: 'share',
  adequacy: 'share',
  susceptibility: 'share',
  drainage_eff_pct: 'percent',
  year_built: 'year',
  reclad_year: 'year',
  installed: 'year',
  installed_used: 'year',
  storeys: 'count',
  building_count: 'count',
  windows_count: 'count',
  row: 'count',
  insured_value: 'money',
};

/** Kind of a unit as a ledger writes it; units not listed are shown as they come. */
export const unitKinds: Readonly<Record<string, Kind>> = {
  'mm per year': 'rain',
  'mm/yr': 'rain',
  mm: 'gap',
  'L/m² per year': 'wetting',
  'L/m² yr': 'wetting',
  m: 'height',
  'm²': 'area',
  km: 'far',
  'm/s': 'speed',
};
