import { searchValue } from './constants.ts';
import type { Shape } from './correlation.ts';
import {
  type Groups,
  type LeftOut,
  leaveOutGlobal,
  leaveOutLocal,
  type NeighboursOutside,
} from './leave-out.ts';
import { searchOf, type Tree, treeOf } from './nearest.ts';
import { kmBetween, type Positions, positions } from './sphere.ts';
import type { Field, Places } from './system.ts';

/** Stations that can be used, one a place, in the order of their file. All arrays have n elements. */
export interface Stations {
  readonly n: number;
  /** Degrees, −180 ≤ longitude < 180. */
  readonly longitude: Float64Array;
  readonly latitude: Float64Array;
  /** Normal, mm a year; above 0. */
  readonly mm: Float64Array;
  /** What the grid says there, mm a year. */
  readonly gridMm: Float64Array;
  /** First row of the file that stands for the station. */
  readonly row: Int32Array;
  readonly name: readonly (string | null)[];
}

/** Stations made ready for kriging: Z = ln(normal) + period shift, drift 1 and ln(grid value), both about their means. */
export interface Network {
  readonly stations: Stations;
  readonly at: Positions;
  readonly tree: Tree;
  /** Z less its mean, which is `level`; drift 1 and ln G less its mean, which is `gridLevel`. */
  readonly adjusted: Field;
  /** The same without the grid: drift 1 alone. */
  readonly alone: Field;
  readonly level: number;
  readonly gridLevel: number;
  /** Standard deviation of Z − ln G: s_grid. NaN for one station. */
  readonly gridSd: number;
  /** Each place from its nearest stations, not from all. */
  readonly local: boolean;
}

const leastGridMm = searchValue('least_grid_mm');
export const nearest = searchValue('nearest');
const globalUpTo = searchValue('global_up_to');

const mean = (values: Float64Array): number =>
  values.reduce((sum, x) => sum + x, 0) / values.length;

/** ln of a grid value, mm; a model's 0 mm counts as the least value. */
export const lnGrid = (mm: number): number => Math.log(Math.max(mm, leastGridMm));

const about = (values: Float64Array, centre: number): Float64Array => values.map((x) => x - centre);

function deviation(values: Float64Array): number {
  const centre = mean(values);
  return Math.sqrt(about(values, centre).reduce((sum, x) => sum + x * x, 0) / (values.length - 1));
}

const ones = (n: number): Float64Array => new Float64Array(n).fill(1);

/** Makes stations ready; `shift` brings their period to that of the analysis, ln. */
export function networkOf(stations: Stations, shift: number): Network {
  const at = positions(stations.longitude, stations.latitude);
  const z = stations.mm.map((mm) => Math.log(mm) + shift);
  const grid = stations.gridMm.map(lnGrid);
  const [level, gridLevel] = [mean(z), mean(grid)];
  const common = {
    z: about(z, level),
    between: (i: number, j: number) => kmBetween(at, i, at, j),
  };
  return {
    stations,
    at,
    tree: treeOf(at),
    adjusted: { ...common, drift: [ones(stations.n), about(grid, gridLevel)] },
    alone: { ...common, drift: [ones(stations.n)] },
    level,
    gridLevel,
    gridSd: deviation(z.map((value, i) => value - grid[i]!)),
    local: stations.n > globalUpTo,
  };
}

/** Places as the network sees them: unit vectors, and drift 1 and ln G about the stations' mean. */
export function placesOf(
  { at, gridLevel }: Network,
  points: Positions,
  gridMm: Float64Array,
): Places {
  return {
    n: points.n,
    drift: [ones(points.n), gridMm.map((mm) => lnGrid(mm) - gridLevel)],
    distance: (t, i) => kmBetween(points, t, at, i),
  };
}

/** Groups of stations in cells of so many degrees, counted from 0° N 0° E. */
export function cellsOf({ longitude, latitude }: Stations, degrees: number): Groups {
  const across = Math.ceil(360 / degrees) + 1;
  return Int32Array.from(
    longitude,
    (lon, i) => Math.floor(latitude[i]! / degrees) * across + Math.floor(lon / degrees),
  );
}

/** Every k-th of n with the least k that leaves no more than `most`. */
function everyKth(n: number, most: number): Int32Array {
  const k = Math.ceil(n / most);
  return Int32Array.from({ length: Math.ceil(n / k) }, (_, i) => i * k);
}

/**
 * Leaves out stations by groups: all of them in turn where they are kriged together, else every k-th so that no more than
 * `most` are.
 */
export function leaveOut(
  network: Network,
  field: Field,
  shape: Shape,
  groups: Groups,
  most: number,
): LeftOut {
  const { local, tree, at, stations } = network;
  if (!local) return leaveOutGlobal(field, shape, groups);
  const search = searchOf(tree, nearest);
  const neighbours: NeighboursOutside = (i, of, ids) => {
    const found = search.find(at, i, of, of[i]);
    ids.set(search.ids);
    return found;
  };
  const which = everyKth(stations.n, most);
  return leaveOutLocal(field, shape, groups, which, neighbours, nearest);
}
