import type { Constants } from '../constants.ts';
import { rainConstant } from './constants.ts';
import type { Grid, RainGrid } from './grid.ts';
import { type Nearest, nearestNode } from './nearest.ts';
import { nearestOnProjection } from './nearest-projected.ts';
import { projectorOf } from './projection.ts';

/** What the grid says at n points. Every array has n elements. */
export interface RainSample {
  /** mm a year, rounded to 1e-4; NaN where neither the surrounding nodes nor one within reach have data. */
  readonly mm: Float64Array;
  /** Great-circle distance to the node that stands in for a place without data, 0.1 km; NaN where none was needed. */
  readonly distanceKm: Float64Array;
  /** 1 where the surrounding nodes with data differ by more than the steep ratio. */
  readonly steep: Uint8Array;
}

/** What the value at one point was made of. Both arrays have four elements. */
export interface NodeShares {
  /** Index into the grid, −1 for none. */
  readonly node: Int32Array;
  /** Weights of these nodes after missing ones were left out: their sum is 1, or 0 where there is no rain. */
  readonly weight: Float64Array;
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

export const samplingLimits = (constants: Constants): SamplingLimits => ({
  reachKm: constants.grid_reach_km!,
  steepRatio: constants.grid_steep_ratio!,
});

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
  distanceKm: new Float64Array(n).fill(Number.NaN),
  steep: new Uint8Array(n),
});

const noShares = (): NodeShares => ({ node: new Int32Array(4), weight: new Float64Array(4) });

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
 * Bilinear values into `out`. Returns the points that need more than that: outside the nodes (`mm` is 0), or with a node
 * that has no data among their four. `shares` is left with the nodes and weights of the last point inside.
 * One long loop on purpose: it runs a million times without an allocation.
 */
function bilinear(
  grid: RainGrid,
  { x, y }: Points,
  ratio: number,
  out: RainSample,
  shares: NodeShares,
): number[] {
  const { width, height, mm, west, north, stepX, stepY } = grid;
  const turn = turnOf(grid);
  const { mm: rain, steep } = out;
  const { node, weight } = shares;
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
    node[0] = a;
    node[1] = b;
    node[2] = c;
    node[3] = d;
    const wa = (1 - tx) * (1 - ty);
    const wb = tx * (1 - ty);
    const wc = (1 - tx) * ty;
    const wd = tx * ty;
    weight[0] = wa;
    weight[1] = wb;
    weight[2] = wc;
    weight[3] = wd;
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

/** Missing nodes become −1 and the other weights sum to 1; mm of what is left, NaN where no node with data carries weight. */
function renormalise({ mm }: RainGrid, { node, weight }: NodeShares): number {
  let total = 0;
  let sum = 0;
  for (let k = 0; k < 4; k++) {
    const value = node[k]! < 0 ? Number.NaN : mm[node[k]!]!;
    if (Number.isNaN(value)) {
      node[k] = -1;
      weight[k] = 0;
    } else {
      total += weight[k]!;
      sum += weight[k]! * value;
    }
  }
  for (let k = 0; k < 4; k++) weight[k] = weight[k]! / total;
  return published(sum / total);
}

function nearest(grid: RainGrid, longitude: number, latitude: number, reachKm: number): Nearest {
  if (grid.projection !== undefined) {
    return nearestOnProjection(grid, { longitude, latitude }, reachKm);
  }
  const eastward = grid.west + eastOf(grid.west, longitude, 360);
  return nearestNode(grid, { longitude: eastward, latitude }, reachKm);
}

/** What the grid says at one point, and the nodes that it says it by. */
interface SampleOfOne extends NodeShares {
  readonly mm: number;
  readonly distanceKm: number;
  readonly steep: number;
}

/**
 * Bilinear; where nodes are missing, by those that are left; where none is, or outside of them, by the nearest within
 * reach.
 * @param point  the same place in the coordinates of the grid
 */
function sampleOne(
  grid: RainGrid,
  [longitude, latitude]: readonly [number, number],
  point: Points,
  limits: SamplingLimits,
): SampleOfOne {
  const [out, shares] = [emptySample(1), noShares()];
  const [rest] = bilinear(grid, point, limits.steepRatio, out, shares);
  const bare = { mm: out.mm[0]!, distanceKm: Number.NaN, steep: out.steep[0]! };
  if (rest === undefined) return { ...bare, ...shares };
  const mm = renormalise(grid, shares);
  if (!Number.isNaN(mm)) return { ...bare, ...shares, mm };
  const { node, km } = nearest(grid, longitude, latitude, limits.reachKm);
  const found = node >= 0;
  return {
    mm: found ? published(grid.mm[node]!) : Number.NaN,
    distanceKm: found ? whole(km * 10) / 10 : Number.NaN,
    steep: 0,
    node: Int32Array.of(node, -1, -1, -1),
    weight: Float64Array.of(found ? 1 : 0, 0, 0, 0),
  };
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
  for (const i of bilinear(grid, points, limits.steepRatio, out, noShares())) {
    const point = { x: points.x.subarray(i, i + 1), y: points.y.subarray(i, i + 1) };
    const one = sampleOne(grid, [longitude[i]!, latitude[i]!], point, limits);
    out.mm[i] = one.mm;
    out.distanceKm[i] = one.distanceKm;
    out.steep[i] = one.steep;
  }
  return out;
}

/** The nodes by which `sampleGrid` finds the rain of one point: a million are asked for their rain, and one is explained. */
export function nodesAt(
  grid: RainGrid,
  longitude: number,
  latitude: number,
  limits: SamplingLimits = defaultLimits,
): NodeShares {
  const point = pointsOn(grid, Float64Array.of(longitude), Float64Array.of(latitude));
  const { node, weight } = sampleOne(grid, [longitude, latitude], point, limits);
  return { node, weight };
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
  const { mm, distanceKm } = sampleGrid({ ...rest, mm: values }, longitude, latitude, limits);
  return { values: mm, distanceKm };
}
