import { earthRadiusKm } from '../rain/great-circle.ts';
import { kmOfChord, type Positions } from './sphere.ts';

/**
 * A k-d tree over unit vectors, laid out as a sorted list: the middle of every stretch parts it at a plane across the
 * axis along which the stretch is longest.
 */
export interface Tree {
  readonly points: Positions;
  readonly ids: Int32Array;
  /** By place in `ids`: the coordinates across whose plane that point parts its stretch; undefined in a leaf. */
  readonly across: readonly (Float64Array | undefined)[];
}

/** Stretches up to this length are looked through one by one. */
const leaf = 8;

function extent(of: Float64Array, ids: Int32Array): number {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const id of ids) {
    least = Math.min(least, of[id]!);
    most = Math.max(most, of[id]!);
  }
  return most - least;
}

function longest(points: Positions, ids: Int32Array): Float64Array {
  const axes = [points.x, points.y, points.z];
  const extents = axes.map((of) => extent(of, ids));
  return axes[extents.indexOf(Math.max(...extents))]!;
}

const middle = (left: number, right: number): number => (left + right) >> 1;

/** The tree of these points. */
export function treeOf(points: Positions): Tree {
  const ids = Int32Array.from({ length: points.n }, (_, i) => i);
  const across = new Array<Float64Array | undefined>(points.n).fill(undefined);
  const part = (left: number, right: number): void => {
    if (right - left < leaf) return;
    const stretch = ids.subarray(left, right + 1);
    const axis = longest(points, stretch);
    stretch.sort((a, b) => axis[a]! - axis[b]! || a - b);
    const m = middle(left, right);
    across[m] = axis;
    part(left, m - 1);
    part(m + 1, right);
  };
  part(0, points.n - 1);
  return { points, ids, across };
}

/** Chords shorter than the farthest found by less than this may still win once distances are rounded: 2.5 mm. */
const slack = 2.5e-6 / earthRadiusKm;

const millimetre = (km: number): number => Math.floor(km * 1e6 + 0.5) / 1e6;

/** A search that is used again and again: what it found stands in its buffers until the next. */
export interface Search {
  /** Ids of the nearest points, nearest first by distance in whole millimetres, then by id. */
  readonly ids: Int32Array;
  /** Their great-circle distances, km to 1e-6. */
  readonly km: Float64Array;
  /**
   * Looks for the points nearest to point i of `from` and returns how many were found. Points whose group is `except`
   * are passed over; without `groups` none is.
   */
  readonly find: (from: Positions, i: number, groups?: Int32Array, except?: number) => number;
}

/** A search for the `most` nearest points of a tree. */
export function searchOf({ points, ids: order, across }: Tree, most: number): Search {
  const { x, y, z } = points;
  const ids = new Int32Array(most);
  const km = new Float64Array(most);
  const chord = new Float64Array(most);
  let found = 0;
  /** Squared chord beyond which nothing can win any more. */
  let limit = Number.POSITIVE_INFINITY;
  let px = 0;
  let py = 0;
  let pz = 0;
  let passed: Int32Array | undefined;
  let group = -1;

  function insert(id: number, squared: number): void {
    const distance = millimetre(kmOfChord(squared));
    let at = found < most ? found++ : most;
    while (at > 0 && (km[at - 1]! > distance || (km[at - 1] === distance && ids[at - 1]! > id))) {
      at -= 1;
      if (at + 1 < most) {
        km[at + 1] = km[at]!;
        ids[at + 1] = ids[at]!;
        chord[at + 1] = chord[at]!;
      }
    }
    if (at === most) return;
    km[at] = distance;
    ids[at] = id;
    chord[at] = Math.sqrt(squared);
    if (found === most) limit = (chord[most - 1]! + slack) ** 2;
  }

  function consider(id: number): void {
    if (passed !== undefined && passed[id] === group) return;
    const dx = x[id]! - px;
    const dy = y[id]! - py;
    const dz = z[id]! - pz;
    const squared = dx * dx + dy * dy + dz * dz;
    if (squared <= limit) insert(id, squared);
  }

  function visit(left: number, right: number): void {
    if (right - left < leaf) {
      for (let at = left; at <= right; at++) consider(order[at]!);
      return;
    }
    const m = middle(left, right);
    const axis = across[m]!;
    const p = axis === x ? px : axis === y ? py : pz;
    const beyond = p - axis[order[m]!]!;
    if (beyond < 0) visit(left, m - 1);
    else visit(m + 1, right);
    if (beyond * beyond > limit) return;
    consider(order[m]!);
    if (beyond < 0) visit(m + 1, right);
    else visit(left, m - 1);
  }

  function find(from: Positions, i: number, groups?: Int32Array, except = -1): number {
    found = 0;
    limit = Number.POSITIVE_INFINITY;
    px = from.x[i]!;
    py = from.y[i]!;
    pz = from.z[i]!;
    passed = groups;
    group = except;
    visit(0, order.length - 1);
    return found;
  }

  return { ids, km, find };
}
