import { rainConstant } from '../rain/constants.ts';
import { type CheckRow, checkRows, type Trial } from './check.ts';
import { chooseShape } from './choose.ts';
import { searchValue } from './constants.ts';
import type { Shape } from './correlation.ts';
import { type LeftOut, oneByOne } from './leave-out.ts';
import { cellsOf, leaveOut, lnGrid, type Network, networkOf, type Stations } from './network.ts';

export interface FitSettings {
  /** Added to ln of every normal: brings the stations' period to that of the analysis. */
  readonly shift: number;
  /** ρ: standard deviation of ln rain that leaving stations out cannot see, such as another period or other gauges. */
  readonly rho: number;
  /** Rain threshold of which the check counts the agreement, mm a year. */
  readonly thresholdMm: number;
}

interface Fitted {
  /** s_grid: standard deviation of ln station − ln grid; NaN with fewer than two stations. */
  readonly gridSd: number;
  /** Empty where there were too few stations to leave any out. */
  readonly check: readonly CheckRow[];
  readonly settings: FitSettings;
}

/** The grid is adjusted by stations. */
export interface Adjusting extends Fitted {
  readonly on: true;
  readonly network: Network;
  readonly shape: Shape;
  /** σ². */
  readonly sill: number;
  readonly lambda: number;
}

/** The grid stands alone in the whole run, and why. */
interface NotAdjusting extends Fitted {
  readonly on: false;
  /** A sentence for the user. */
  readonly why: string;
}

export type Fit = Adjusting | NotAdjusting;

const fewest = searchValue('fewest_stations');
const lambdaStations = searchValue('lambda_stations');
const cellDegrees = searchValue('cell_deg');
const checkStations = searchValue('check_stations');
const interval = rainConstant('interval_z');

/** The user's own stations, of the period that the analysis speaks for. */
export const ownStations: FitSettings = {
  shift: 0,
  rho: 0,
  thresholdMm: rainConstant('rain_threshold_mm'),
};

/** The built-in normals, which are of the middle of the last century. */
export const builtInStations: FitSettings = {
  ...ownStations,
  shift: rainConstant('built_in_shift'),
  rho: rainConstant('built_in_rho'),
};

/** Grid values this near to one another, ln, are one value. */
const sameLn = 1e-6;

const gridAlone = 'so rain is the grid’s alone.';

/** Why these stations cannot adjust any grid, before anything is fitted; null where they may. */
function unusable({ n, gridMm }: Stations): string | null {
  if (n === 0) return `There is no station to adjust the grid by, ${gridAlone}`;
  if (n < fewest) {
    const what = n === 1 ? 'Only one station is' : `Only ${n} stations are`;
    return `${what} of use; at least ${fewest} are needed to adjust the grid, ${gridAlone}`;
  }
  const first = gridMm[0]!;
  if (gridMm.some((mm) => Math.abs(lnGrid(mm) - lnGrid(first)) > sameLn)) return null;
  return `The grid has the same rain (${Math.round(first)} mm) at all ${n} stations, so it cannot be told how rain follows the grid, ${gridAlone}`;
}

/** Smallest value whose share of the sorted values reaches q. */
function quantile(values: Float64Array, q: number): number {
  const sorted = values.slice().sort();
  return sorted[Math.max(0, Math.ceil(q * sorted.length - 1e-9) - 1)]!;
}

/** λ: how much wider errors spread than the kriging variance says, at the ends of the 80 % interval. */
function widening({ error, variance, sill }: LeftOut): number {
  const ratios = error
    .map((e, k) => Math.abs(e) / Math.sqrt(sill * variance[k]!))
    .filter((ratio) => !Number.isNaN(ratio));
  return ratios.length < lambdaStations ? 1 : quantile(ratios, 0.8) / interval;
}

function trials(network: Network, shape: Shape): readonly [Trial, Trial] {
  const aloneShape = chooseShape(network, network.alone);
  const trial = (leftOut: Trial['leftOut'], groups: Int32Array): Trial => ({
    leftOut,
    adjusted: leaveOut(network, network.adjusted, shape, groups, checkStations),
    alone: leaveOut(network, network.alone, aloneShape, groups, checkStations),
  });
  return [
    trial('one by one', oneByOne(network.stations.n)),
    trial('by cells', cellsOf(network.stations, cellDegrees)),
  ];
}

/** Why the fit is of no use; null where it beats the grid. What counts is the run's own period. */
function noBetter(check: readonly CheckRow[], shifted: boolean): string | null {
  const rmse = (estimate: CheckRow['estimate']) =>
    check.find(
      (row) => row.estimate === estimate && row.leftOut === 'one by one' && row.shifted === shifted,
    )!.rmseLn;
  const [own, grid] = [rmse('adjusted'), rmse('grid alone')];
  if (own < grid) return null;
  return `Left out one by one, the stations are foretold no better with the others (error of ln rain ${own.toFixed(3)}) than by the grid alone (${grid.toFixed(3)}), ${gridAlone}`;
}

/**
 * Fits the adjustment of a grid to stations: r and τ² by the error of stations left out, σ² by the generalised least
 * squares residual, λ from the same errors. Off, with the reason, where it cannot be fitted or does not beat the grid.
 */
export function fitStations(stations: Stations, settings: FitSettings = ownStations): Fit {
  const network = networkOf(stations, settings.shift);
  const { gridSd } = network;
  const reason = unusable(stations);
  if (reason !== null) return { on: false, why: reason, gridSd, check: [], settings };
  const shape = chooseShape(network, network.adjusted);
  const [first, second] = trials(network, shape);
  const lambda = widening(first.adjusted);
  const check = checkRows(network, [first, second], lambda, settings.shift, settings.thresholdMm);
  const why = noBetter(check, settings.shift !== 0);
  if (why !== null) return { on: false, why, gridSd, check, settings };
  const { sill } = first.adjusted;
  return { on: true, network, shape, sill, lambda, gridSd, check, settings };
}
