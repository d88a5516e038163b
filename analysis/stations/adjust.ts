import { searchValue } from './constants.ts';
import { correlationAt } from './correlation.ts';
import type { Adjusting } from './fit.ts';
import { type Kriged, krigeFrom, krigeGlobal, krigeLocal, weights } from './krige.ts';
import { searchOf } from './nearest.ts';
import { lnGrid, nearest, placesOf } from './network.ts';
import { type Positions, positions } from './sphere.ts';
import { newSystem, type Places, type System } from './system.ts';

/** What `flag` of adjusted rain says; 0 is nothing to say. */
export const rainFlags = [null, 'drift only', 'level of the stations only'] as const;
const driftOnly = 1;
const levelOnly = 2;

/** Adjusted rain at n places; NaN where the grid has none or a coordinate is missing. */
export interface AdjustedRain {
  /** ln of the median, rounded to 1e-6. */
  readonly z: Float64Array;
  /** Standard deviation of ln rain, rounded to 1e-6. */
  readonly s: Float64Array;
  /** Median, mm a year, rounded to 1e-4. */
  readonly mm: Float64Array;
  /** Index into `rainFlags`. */
  readonly flag: Uint8Array;
}

const round = (x: number, steps: number): number => Math.floor(x * steps + 0.5) / steps;

const driftCorrelation = searchValue('drift_only_correlation');
const levelRatio = searchValue('level_only_ratio');

/** Ids of places that can be adjusted, those near one another together: by rows of cells of a degree. */
function inCells(
  longitude: Float64Array,
  latitude: Float64Array,
  gridMm: Float64Array,
): Int32Array {
  const usable = (t: number) => !Number.isNaN(longitude[t]! + latitude[t]! + gridMm[t]!);
  const key = longitude.map((x, t) => Math.floor(latitude[t]!) * 1000 + Math.floor(x));
  const ids = Int32Array.from([...longitude.keys()].filter(usable));
  return ids.sort((a, b) => key[a]! - key[b]! || a - b);
}

const pick = (values: Float64Array, ids: Int32Array): Float64Array =>
  Float64Array.from(ids, (id) => values[id]!);

function krige({ network, shape }: Adjusting, points: Positions, places: Places): Kriged {
  if (!network.local) return krigeGlobal(network.adjusted, shape, places);
  const search = searchOf(network.tree, nearest);
  const neighbours = (t: number, ids: Int32Array) => {
    const found = search.find(points, t);
    ids.set(search.ids);
    return found;
  };
  return krigeLocal(network.adjusted, shape, places, neighbours, nearest);
}

/** Distance beyond which no station counts as near: the correlation there is the stated one. Whole millimetres. */
const farKm = ({ shape }: Adjusting): number =>
  round(-shape.range * Math.log(driftCorrelation), 1e6);

/** λ² · kriging variance + ρ², its root. */
const spread = ({ lambda, sill, settings }: Adjusting, variance: number): number =>
  Math.sqrt(lambda * lambda * sill * variance + settings.rho * settings.rho);

/** Rain of one place into element `id` of `out`, from what was kriged and the distance to the nearest station. */
function settle(
  fit: Adjusting,
  out: AdjustedRain,
  id: number,
  kriged: { readonly estimate: number; readonly variance: number; readonly far: boolean },
  gridMm: number,
): void {
  const { network, gridSd } = fit;
  let z = network.level + kriged.estimate;
  let s = spread(fit, kriged.variance);
  if (kriged.far) {
    out.flag[id] = driftOnly;
    s = Math.max(s, gridSd);
  }
  if (s > levelRatio * gridSd) {
    out.flag[id] = levelOnly;
    z = network.level + lnGrid(gridMm) - network.gridLevel;
    s = levelRatio * gridSd;
  }
  out.z[id] = round(z, 1e6);
  out.s[id] = round(s, 1e6);
  out.mm[id] = round(Math.exp(z), 1e4);
}

/**
 * Rain of the grid adjusted by stations at n places: degrees, and what the grid says there, mm a year.
 *
 * *Drift only*: the nearest station is so far that its correlation is below the stated one; s is then at least s_grid.
 * *Level of the stations only*: s would exceed s_grid by more than the stated ratio, which happens where the drift of far
 * or huddled stations is carried to a place unlike theirs; the place then has the grid's value at the mean level of all
 * stations, and s is held at that ratio.
 */
export function adjustRain(
  fit: Adjusting,
  longitude: Float64Array,
  latitude: Float64Array,
  gridMm: Float64Array,
): AdjustedRain {
  const none = () => new Float64Array(longitude.length).fill(Number.NaN);
  const out = { z: none(), s: none(), mm: none(), flag: new Uint8Array(longitude.length) };
  const ids = inCells(longitude, latitude, gridMm);
  const points = positions(pick(longitude, ids), pick(latitude, ids));
  const places = placesOf(fit.network, points, pick(gridMm, ids));
  const { estimate, variance } = krige(fit, points, places);
  const one = searchOf(fit.network.tree, 1);
  const limit = farKm(fit);
  ids.forEach((id, t) => {
    one.find(points, t);
    const far = one.km[0]! > limit;
    settle(fit, out, id, { estimate: estimate[t]!, variance: variance[t]!, far }, gridMm[id]!);
  });
  return out;
}

/** A station's part in the rain of a place. */
export interface StationWeight {
  /** Index of the station in the network. */
  readonly station: number;
  /** Great-circle distance, km. */
  readonly km: number;
  /** Kriging weight: ln of the median is Σ weight · (ln of the station's normal + period shift). Weights sum to 1. */
  readonly weight: number;
}

/** The kriging system of one place: every station, or its nearest. */
function systemAt({ network, shape }: Adjusting, point: Positions, places: Places): System {
  const { stations, tree, adjusted, local } = network;
  const most = local ? Math.min(nearest, stations.n) : stations.n;
  const system = newSystem(most, adjusted.drift.length);
  const search = searchOf(tree, most);
  const m = search.find(point, 0);
  system.ids.set(search.ids);
  const correlation = (i: number, j: number) => correlationAt(adjusted.between(i, j), shape);
  krigeFrom(system, m, adjusted, correlation, shape, places, 0);
  return system;
}

/**
 * The stations that made the rain of one place, nearest first, with their weights; made on demand, for the ledger. Not
 * for a place flagged *level of the stations only*, which takes all stations alike.
 */
export function stationWeights(
  fit: Adjusting,
  longitude: number,
  latitude: number,
  gridMm: number,
): StationWeight[] {
  const point = positions(Float64Array.of(longitude), Float64Array.of(latitude));
  const places = placesOf(fit.network, point, Float64Array.of(gridMm));
  const system = systemAt(fit, point, places);
  return Array.from(weights(system), (weight, a) => {
    const station = system.ids[a]!;
    return { station, km: round(places.distance(0, station), 1e6), weight: round(weight, 1e12) };
  });
}
