import { rainConstant } from './constants.ts';
import type { Grid, RainGrid } from './grid.ts';
import { type Nearest, nearestNode } from './nearest.ts';
import { nearestOnProjection } from './nearest-projected.ts';
import { projectorOf } from './projection.ts';

/** What the grid says at n points. Every array but `node` and `weight` has n elements; those have 4 n. */
export interface RainSample {
  /** mm a year, rounded to 1e-4; NaN where neither the surrounding nodes nor one within reach have data. */
  readonly mm: Float64Array;
  /** The nodes a value was made of (index into the grid), −1 for none. */
  readonly node: Int32Array;
  /** Weights of these nodes after missing ones were left out: their sum is 1, or 0 where there is no rain. */
  readonly weight: Float64Array;
  /** Great-circle distance to the node that stands in for a place without data, 0.1 km; NaN where none was needed. */
  readonly distanceKm: Float64Array;
  /** 1 where the surrounding nodes with data differ by more than the steep ratio. */
  readonly steep: Uint8Array;
}

export interface SamplingLimits {
  /** Farthest node that may stand in for a place without data, km. */
  readonly reachKm: number;
  /** Ratio of greatest to least surrounding node above which the gradient is called steep. */
  readonly steepRatio: number;
}

const defaultLimits: SamplingLimits = {
  reachKm: rainConstant('grid_reach_km'),
  steepRatio: rainConstant('grid_steep_ratio'),
};

/** A point this close to a column or row is on it: decimals of a degree are not exact in binary. */
const snap = 1e-9;

/** `Math.floor(x + 0.5)` is a third faster here than `Math.round`, and the same for these values in every engine. */
const whole = (x: number): number => Math.floor(x + 0.5);

const snapped = (x: number): number => (Math.abs(x - whole(x)) < snap ? whole(x) : x);

const published = (mm: number): number => whole(mm * 1e4) / 1e4;

/**
 * Degrees east of the first column, 0 ≤ d < 360, so that 190 and −170 are one meridian. On a map projection a turn is
 * endless: what lies west of the first column is NaN.
 */
function eastOf(west: number, x: number, turn: number): number {
  const d = x - west;
  return d >= 0 && d < turn ? d : d - turn * Math.floor(d / turn);
}

/** 1 where one of four values exceeds another by more than the ratio. Without branches: they cost 12 ms in a million. */
function steepness(a: number, b: number, c: number, d: number, ratio: number): number {
  const ra = ratio * a;
  const rb = ratio * b;
  const rc = ratio * c;
  const rd = ratio * d;
  const first = Number(a > rb) | Number(a > rc) | Number(a > rd);
  const second = Number(b > ra) | Number(b > rc) | Number(b > rd);
  const third = Number(c > ra) | Number(c > rb) | Number(c > rd);
  return first | second | third | Number(d > ra) | Number(d > rb) | Number(d > rc);
}

const emptySample = (n: number): RainSample => ({
  mm: new Float64Array(n),
  node: new Int32Array(4 * n),
  weight: new Float64Array(4 * n),
  distanceKm: new Float64Array(n).fill(Number.NaN),
  steep: new Uint8Array(n),
});

/** The points in question, in the coordinates of the grid. */
interface Points {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

const turnOf = (grid: RainGrid): number =>
  grid.projection === undefined ? 360 : Number.POSITIVE_INFINITY;

/** Points given in degrees, in the coordinates of the grid: the same arrays where these are degrees. */
function pointsOn(
  { projection }: RainGrid,
  longitude: Float64Array,
  latitude: Float64Array,
): Points {
  if (projection === undefined) return { x: longitude, y: latitude };
  const { forward } = projectorOf(projection);
  const x = new Float64Array(longitude.length);
  const y = new Float64Array(longitude.length);
  const to = new Float64Array(2);
  for (let i = 0; i < longitude.length; i++) {
    forward(longitude[i]!, latitude[i]!, to);
    x[i] = to[0]!;
    y[i] = to[1]!;
  }
  return { x, y };
}

/**
 * Bilinear values into `out`. Returns the points that need more than that: outside the nodes (`mm` is 0 and no weight
 * set), or with a node that has no data among their four (all four noted, `mm` not yet set).
 * One long loop on purpose: it runs a million times without an allocation.
 */
function bilinear(grid: RainGrid, points: Points, ratio: number, out: RainSample): number[] {
  const { width, height, mm, west, north, stepX, stepY } = grid;
  const { x, y } = points;
  const turn = turnOf(grid);
  const { mm: rain, node, weight, steep } = out;
  const right = grid.wrapsLongitude ? width : width - 1;
  const bottom = height - 1;
  const rest: number[] = [];
  for (let i = 0; i < x.length; i++) {
    const fx = snapped(eastOf(west, x[i]!, turn) / stepX);
    const fy = snapped((y[i]! - north) / stepY);
    if (!(fx >= 0 && fx <= right && fy >= 0 && fy <= bottom)) {
      rest.push(i);
      continue;
    }
    const x0 = fx < right ? Math.floor(fx) : right - 1;
    const y0 = fy < bottom ? Math.floor(fy) : bottom - 1;
    const tx = fx - x0;
    const ty = fy - y0;
    const a = y0 * width + x0;
    const b = x0 + 1 === width ? y0 * width : a + 1;
    const c = a + width;
    const d = b + width;
    const at = 4 * i;
    node[at] = a;
    node[at + 1] = b;
    node[at + 2] = c;
    node[at + 3] = d;
    const wa = (1 - tx) * (1 - ty);
    const wb = tx * (1 - ty);
    const wc = (1 - tx) * ty;
    const wd = tx * ty;
    weight[at] = wa;
    weight[at + 1] = wb;
    weight[at + 2] = wc;
    weight[at + 3] = wd;
    const va = mm[a]!;
    const vb = mm[b]!;
    const vc = mm[c]!;
    const vd = mm[d]!;
    const value = wa * va + wb * vb + wc * vc + wd * vd;
    if (Number.isNaN(value)) rest.push(i);
    rain[i] = published(value);
    steep[i] = steepness(va, vb, vc, vd, ratio);
  }
  return rest;
}

/**
 * The same for one point with missing nodes among its four: they become −1 and the other weights sum to 1.
 * False where no node with data carries weight.
 */
function renormalise(grid: RainGrid, i: number, out: RainSample): boolean {
  let total = 0;
  let sum = 0;
  for (let k = 4 * i; k < 4 * i + 4; k++) {
    const value = grid.mm[out.node[k]!]!;
    if (Number.isNaN(value)) {
      out.node[k] = -1;
      out.weight[k] = 0;
    }
    total += out.weight[k]!;
    sum += out.node[k]! < 0 ? 0 : out.weight[k]! * value;
  }
  for (let k = 4 * i; k < 4 * i + 4; k++) out.weight[k] = out.weight[k]! / total;
  out.mm[i] = published(sum / total);
  return total > 0;
}

function nearest(grid: RainGrid, longitude: number, latitude: number, reachKm: number): Nearest {
  if (grid.projection !== undefined) {
    return nearestOnProjection(grid, { longitude, latitude }, reachKm);
  }
  const eastward = grid.west + eastOf(grid.west, longitude, 360);
  return nearestNode(grid, { longitude: eastward, latitude }, reachKm);
}

/** The nearest node with data into element i of `out`, or nothing where none is within reach. */
function standIn(
  grid: RainGrid,
  [longitude, latitude]: readonly [number, number],
  reachKm: number,
  i: number,
  out: RainSample,
): void {
  const { node, km } = nearest(grid, longitude, latitude, reachKm);
  const found = node >= 0;
  out.node.fill(-1, 4 * i, 4 * i + 4);
  out.weight.fill(0, 4 * i, 4 * i + 4);
  out.node[4 * i] = node;
  out.weight[4 * i] = found ? 1 : 0;
  out.mm[i] = found ? published(grid.mm[node]!) : Number.NaN;
  out.distanceKm[i] = found ? whole(km * 10) / 10 : Number.NaN;
  out.steep[i] = 0;
}

/**
 * Rain of the grid at points (degrees, WGS 84): bilinear between the four surrounding nodes; missing nodes are left out
 * and the other weights made to sum to 1; where none is left, or the point lies outside the nodes, the nearest node with
 * data within reach. NaN coordinates and latitudes beyond the poles have no rain. Results do not depend on the engine.
 * Points of a grid on a map projection are projected first (`loadProjections` must have been awaited).
 */
export function sampleGrid(
  grid: RainGrid,
  longitude: Float64Array,
  latitude: Float64Array,
  limits: SamplingLimits = defaultLimits,
): RainSample {
  if (grid.width < 2 || grid.height < 2 || !(grid.stepX > 0)) throw new Error('not a rain grid');
  const points = pointsOn(grid, longitude, latitude);
  const out = emptySample(longitude.length);
  for (const i of bilinear(grid, points, limits.steepRatio, out)) {
    const beside =
      out.weight[4 * i]! +
        out.weight[4 * i + 1]! +
        out.weight[4 * i + 2]! +
        out.weight[4 * i + 3]! >
      0;
    if (!(beside && renormalise(grid, i, out))) {
      standIn(grid, [longitude[i]!, latitude[i]!], limits.reachKm, i, out);
    }
  }
  return out;
}

/** What a grid of any quantity says at n points: as `RainSample`, without the words of rain. */
interface GridSample extends Omit<RainSample, 'mm' | 'steep'> {
  /** In the quantity's unit, rounded to 1e-4; NaN where neither the surrounding nodes nor one within reach have data. */
  readonly values: Float64Array;
}

/** Values of a wind or temperature grid at points, by the rules of `sampleGrid`. */
export function sampleValues(
  { values, ...rest }: Grid,
  longitude: Float64Array,
  latitude: Float64Array,
  reachKm = defaultLimits.reachKm,
): GridSample {
  const limits = { ...defaultLimits, reachKm };
  const { mm, node, weight, distanceKm } = sampleGrid(
    { ...rest, mm: values },
    longitude,
    latitude,
    limits,
  );
  return { values: mm, node, weight, distanceKm };
}
