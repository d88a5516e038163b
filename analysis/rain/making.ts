import type { Constants } from '../constants.ts';
import type { RainReport } from '../session-types.ts';
import { type Fit, fitStations } from '../stations/fit.ts';
import type { StationFile } from '../stations/read.ts';
import type { RainMaking } from './at-buildings.ts';
import type { RainGrid } from './grid.ts';

/** What the rain may be made of. */
export interface RainInputs {
  readonly grid: RainGrid;
  readonly stations: StationFile | null;
  readonly builtInStations: boolean;
}

/** Constants that the rain at buildings hangs on. */
export const rainReads: readonly string[] = [
  ...['own_shift', 'own_rho', 'built_in_shift', 'built_in_rho', 'rain_threshold_mm', 'grid_ln_sd'],
  ...['grid_reach_km', 'grid_steep_ratio', 'node_outer_z', 'node_inner_z'],
];

/** How the rain of a run is made, with the stations it was fitted to. */
export interface MadeRain extends RainMaking {
  readonly stations: StationFile | null;
}

/** Fits the stations to the grid under these constants; what the user's stations are told apart from what ships. */
export function rainMaking(inputs: RainInputs, constants: Constants): MadeRain {
  const { grid, stations, builtInStations } = inputs;
  const kind = builtInStations ? 'built_in' : 'own';
  const fit = stations
    ? fitStations(stations.stations, {
        shift: constants[`${kind}_shift`]!,
        rho: constants[`${kind}_rho`]!,
        thresholdMm: constants.rain_threshold_mm!,
      })
    : null;
  const adjusted = fit?.on === true;
  return {
    grid,
    stations,
    fit,
    source: adjusted ? `${grid.source}, adjusted by ${stations!.source}` : grid.source,
    period: adjusted ? `stations: ${stations!.period}; grid: ${grid.period}` : grid.period,
  };
}

/** What the Method view and the command line say of the rain of a run. */
export function rainReport({ source, period, fit, stations }: MadeRain): RainReport {
  return {
    source,
    period,
    adjusted: fit?.on === true,
    sentence: sentenceOf(fit),
    stations: stations?.stations.n ?? 0,
    parameters: fit ? parametersOf(fit) : {},
    checks: fit?.check ?? [],
  };
}

function sentenceOf(fit: Fit | null): string {
  if (fit === null) return 'Rain is the grid’s alone: no stations were given for it.';
  if (!fit.on) return fit.why;
  return `Rain is the grid’s, adjusted by ${fit.network.stations.n} stations (kriging with external drift).`;
}

function parametersOf(fit: Fit): Record<string, number> {
  const { shift, rho } = fit.settings;
  const common = { grid_ln_sd: rounded(fit.gridSd), period_shift: shift, rho };
  if (!fit.on) return common;
  const { shape, sill, lambda } = fit;
  return {
    range_km: shape.range,
    nugget: shape.nugget,
    sill: rounded(sill),
    lambda: rounded(lambda),
    ...common,
  };
}

/** To 1e-6: engines differ in the last bits of their logarithms. */
const rounded = (x: number): number => Math.round(x * 1e6) / 1e6;
