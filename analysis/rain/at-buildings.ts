import { type Column, type Columns, numbers } from '../columns.ts';
import type { Constants } from '../constants.ts';
import { adjustRain, rainFlags } from '../stations/adjust.ts';
import type { Fit } from '../stations/fit.ts';
import type { RainGrid } from './grid.ts';
import { chanceOver, rainInterval } from './interval.ts';
import { type RainSample, sampleGrid, samplingLimits } from './sample.ts';

/** Rain at places: median, spread of ln rain, and what is to be said of each. */
interface RainAtPlaces {
  readonly mm: Float64Array;
  readonly s: Float64Array;
  /** Index into `rainFlags`. */
  readonly flag: Uint8Array;
}

/** How the rain of a run is made. */
export interface RainMaking {
  readonly grid: RainGrid;
  /** The adjustment by stations; null where there are none for this grid. */
  readonly fit: Fit | null;
  /** Stands in every output: the grid, and the stations where they adjust it. */
  readonly source: string;
  readonly period: string;
}

/** Rain of each building as columns of the table `building`, and the grid sample it was made from, for the ledger. */
export interface RainAtBuildings {
  readonly columns: Readonly<Record<string, Column>>;
  readonly sample: RainSample;
  /** The one row of the table `rain_said`: what all rain of the run comes from. */
  readonly said: Columns;
}

/**
 * Rain at every building: median, 80 % interval, probability over the threshold, five equal nodes of its distribution,
 * flag.
 */
export function rainAtBuildings(
  buildings: Columns,
  making: RainMaking,
  constants: Constants,
): RainAtBuildings {
  const longitude = numbers(buildings, 'longitude');
  const latitude = numbers(buildings, 'latitude');
  const limits = samplingLimits(constants);
  const sample = sampleGrid(making.grid, longitude, latitude, limits);
  const rain = making.fit?.on
    ? adjustRain(making.fit, longitude, latitude, sample.mm)
    : gridAlone(sample.mm, constants.grid_ln_sd!);
  return {
    sample,
    said: { n: 1, cols: { source: [making.source], period: [making.period] } },
    columns: {
      rain_mm: rain.mm,
      rain_ln_sd: rain.s,
      ...spread(rain, constants),
      rain_flag: Array.from(rain.mm, (mm, i) => flag(mm, i, rain, sample, limits.reachKm)),
    },
  };
}

const gridAlone = (mm: Float64Array, s: number): RainAtPlaces => ({
  mm,
  s: mm.map((value) => (Number.isNaN(value) ? Number.NaN : s)),
  flag: new Uint8Array(mm.length),
});

/** The five equal nodes stand at the 10, 30, 50, 70 and 90 % points. */
function spread({ mm, s }: RainAtPlaces, constants: Constants): Record<string, Float64Array> {
  const { node_outer_z: outer, node_inner_z: inner, rain_threshold_mm: threshold } = constants;
  const intervals = Array.from(mm, (value, i) => rainInterval(value, s[i]!));
  const node = (z: number) =>
    mm.map((value, i) => Math.round(value * Math.exp(z * s[i]!) * 1e4) / 1e4);
  return {
    rain_low_mm: Float64Array.from(intervals, ({ low }) => low),
    rain_high_mm: Float64Array.from(intervals, ({ high }) => high),
    p_rain_over_threshold: mm.map((value, i) => chanceOver(value, s[i]!, threshold!)),
    rain_1: node(-outer!),
    rain_2: node(-inner!),
    rain_3: node(0),
    rain_4: node(inner!),
    rain_5: node(outer!),
  };
}

function flag(
  mm: number,
  i: number,
  rain: RainAtPlaces,
  sample: RainSample,
  reachKm: number,
): string | null {
  if (Number.isNaN(mm)) return `no rain within ${reachKm} km`;
  const distance = sample.distanceKm[i]!;
  const said = [
    Number.isNaN(distance) ? null : `from a grid node ${distance} km away`,
    sample.steep[i] === 1 ? 'steep rain gradient' : null,
    rainFlags[rain.flag[i]!],
  ].filter(Boolean);
  return said.length > 0 ? said.join('; ') : null;
}
