import { type Column, type Columns, numbers } from '../columns.ts';
import type { Settings } from '../settings.ts';
import type { RainGrid } from './grid.ts';
import { chanceOver, rainInterval } from './interval.ts';
import { type RainSample, sampleGrid } from './sample.ts';

/** Rain of each building as columns of the table `building`, and the sample it was made from, for the ledger. */
export interface RainAtBuildings {
  readonly columns: Readonly<Record<string, Column>>;
  readonly sample: RainSample;
}

/** Samples the grid at every building: value, 80 % interval, probability over the threshold, source, period, flag. */
export function rainAtBuildings(
  buildings: Columns,
  grid: RainGrid,
  settings: Settings,
): RainAtBuildings {
  const limits = { reachKm: settings.grid_reach_km!, steepRatio: settings.grid_steep_ratio! };
  const sample = sampleGrid(
    grid,
    numbers(buildings, 'longitude'),
    numbers(buildings, 'latitude'),
    limits,
  );
  const s = settings.grid_ln_sd!;
  const intervals = Array.from(sample.mm, (mm) => rainInterval(mm, s));
  const known = (text: string) => Array.from(sample.mm, (mm) => (Number.isNaN(mm) ? null : text));
  return {
    sample,
    columns: {
      rain_mm: sample.mm,
      rain_low_mm: Float64Array.from(intervals, ({ low }) => low),
      rain_high_mm: Float64Array.from(intervals, ({ high }) => high),
      p_rain_over_threshold: sample.mm.map((mm) => chanceOver(mm, s, settings.rain_threshold_mm!)),
      rain_source: known(grid.source),
      rain_period: known(grid.period),
      rain_flag: Array.from(sample.mm, (mm, i) => flag(mm, i, sample, limits.reachKm)),
    },
  };
}

function flag(mm: number, i: number, sample: RainSample, reachKm: number): string | null {
  if (Number.isNaN(mm)) return `no rain within ${reachKm} km`;
  const distance = sample.distanceKm[i]!;
  if (!Number.isNaN(distance)) return `from a grid node ${distance} km away`;
  return sample.steep[i] === 1 ? 'steep rain gradient' : null;
}
