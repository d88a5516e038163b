/** Column names as people read them. Names not listed are split at their underscores. */
const labels: Readonly<Record<string, string>> = {
  building_id: 'Building',
  wall_id: 'Wall',
  rain_mm: 'Rain',
  rain_low_mm: 'Rain, low end',
  rain_high_mm: 'Rain, high end',
  p_rain_over_threshold: 'Chance that rain is over the threshold',
  rain_source: 'Source of rain',
  rain_period: 'Period of rain',
  rain_flag: 'Flag on rain',
  wetting_l_m2: 'Wetting',
  need_code_then: 'Code then',
  need_code_now: 'Code now',
  need_practice: 'Practice',
  drainage_state: 'Drainage state',
  index_low: 'Index, low end',
  index_high: 'Index, high end',
  index_spread: 'Index over all walls',
  tier_low: 'Tier, low end',
  tier_high: 'Tier, high end',
  index_weighted_area_m2: 'Sorting weight',
  place_source: 'Place taken from',
  region_source: 'Region taken from',
  height_m: 'Height',
  height_used_m: 'Height',
  installed_used: 'Cladding put up',
  drainage_used: 'Drainage on record',
  adequacy: 'Drainage against what is asked',
  gap_mm: 'Gap',
  gap_asked_mm: 'Gap asked',
  area_m2: 'Area',
  wall_area_m2: 'Wall area',
  scored_area_m2: 'Area of the scored walls',
  azimuth_deg: 'Faces',
  overhang_mm: 'Overhang',
  distance_to_coast_km: 'Distance to coast',
  obstruction_m: 'Distance to obstruction',
  mean_temp_c: 'Mean temperature',
  hdd18_c: 'Heating degree-days',
  drainage_eff_pct: 'Drainage efficiency',
  year_built: 'Built',
  reclad_year: 'Reclad',
  building_count: 'Buildings on this line',
  leak_history: 'Leaks',
  value_at_tier: 'Insured value at tier',
  w: 'Wetting term w',
  d: 'Drainage term d',
  s: 'Sheathing term s',
  row: 'Input row',
};

export function label(column: string): string {
  const known = labels[column];
  if (known) return known;
  const words = column.replaceAll('_', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** A stored keyword (`double_paper`) as two words. */
export const plainWord = (value: string): string => value.replaceAll('_', ' ');

/** Said beside a field that holds none. */
export const numberNeeded = 'A number is needed here.';
