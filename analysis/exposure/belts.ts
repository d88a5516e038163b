import { earthRadiusKm, reachApart } from '../rain/great-circle.ts';
import { arranged } from '../sift/arrange.ts';
import { nearness, type Places } from './near.ts';

/** Places with a weight each: whole numbers whose sum is below 2⁵³, so that sums in any order are exact. */
export interface Weighted extends Places {
  readonly weight: Float64Array;
}

/** Sums of weight within a radius of each place. */
export interface Neighbourhoods {
  /** No less than the sum about each place, at little cost. */
  readonly bound: () => Float64Array;
  /** The sum about one place. */
  readonly exact: (place: number) => number;
}

const radians = Math.PI / 180;
/** Belts of latitude to a radius: more of them make bounds tighter and dearer. */
const beltsInRadius = 16;
/** km, 2 mm: what rounding may move a distance by, and more. */
const slack = 2e-6;

/** Stripes of latitude that hold the places in order of longitude, with running sums. */
interface Belts {
  readonly height: number;
  /** First entry of each belt, and one past the last. */
  readonly start: Int32Array;
  /** Entries: places, and copies of those near the 180th meridian 360° farther on, so that no reach is cut there. */
  readonly place: Int32Array;
  readonly longitude: Float64Array;
  /** Sum of the weights before each entry. */
  readonly before: Float64Array;
  /** Sum of the weights of each belt, copies left out. */
  readonly total: Float64Array;
}

/** Sums within `km` of each place, by belts of latitude. */
export function neighbourhoods(places: Weighted, km: number): Neighbourhoods {
  const belts = beltsOf(places, km);
  const within = nearness(places).within(km);
  return {
    bound: () => bounds(places, belts, km),
    exact: (place) => exactSum(places, belts, km, place, within),
  };
}

const beltOf = (latitude: number, height: number): number => Math.floor((latitude + 90) / height);
const cosine = (latitude: number): number => Math.cos(Math.min(90, Math.abs(latitude)) * radians);

/** Least and greatest cosine of latitude in a belt. */
function cosines(belt: number, height: number): readonly [least: number, greatest: number] {
  const [south, north] = [belt * height - 90, (belt + 1) * height - 90];
  const [a, b] = [cosine(south), cosine(north)];
  return [Math.min(a, b), south <= 0 && north >= 0 ? 1 : Math.max(a, b)];
}

function beltsOf({ longitude, latitude, weight }: Weighted, km: number): Belts {
  const n = longitude.length;
  const height = km / earthRadiusKm / radians / beltsInRadius;
  const east = longitude.map((lon) => (lon >= 180 ? lon - 360 : lon));
  const belt = latitude.map((lat) => beltOf(lat, height));
  const order = byBelt(belt, east);
  const count = beltOf(90, height) + 2;
  const start = new Int32Array(count + 1);
  const place: number[] = [];
  const lon: number[] = [];
  const total = new Float64Array(count);
  let from = 0;
  for (let k = 0; k < count; k++) {
    start[k] = place.length;
    let to = from;
    while (to < n && belt[order[to]!] === k) to++;
    if (to > from) {
      const margin = overlap(k, height, km);
      const add = (i: number, shift: number) => {
        place.push(order[i]!);
        lon.push(east[order[i]!]! + shift);
      };
      for (let i = from; i < to; i++) if (east[order[i]!]! >= 180 - margin) add(i, -360);
      for (let i = from; i < to; i++) {
        add(i, 0);
        total[k]! += weight[order[i]!]!;
      }
      for (let i = from; i < to; i++) if (east[order[i]!]! < margin - 180) add(i, 360);
    }
    from = to;
  }
  start[count] = place.length;
  return {
    height,
    start,
    place: Int32Array.from(place),
    longitude: Float64Array.from(lon),
    before: runningSums(place, weight),
    total,
  };
}

/** Places from south to north by belt, in each belt from west to east. */
function byBelt(belt: Float64Array, east: Float64Array): Int32Array {
  const all = Int32Array.from({ length: belt.length }, (_, i) => i);
  return arranged(arranged(all, east, false), belt, false);
}

function runningSums(place: readonly number[], weight: Float64Array): Float64Array {
  const before = new Float64Array(place.length + 1);
  for (let i = 0; i < place.length; i++) before[i + 1] = before[i]! + weight[place[i]!]!;
  return before;
}

/** How far, in degrees of longitude, any place may look into this belt. */
function overlap(belt: number, height: number, km: number): number {
  const least = cosines(belt, height)[0];
  const reachInto = Math.min(
    ...[-beltsInRadius - 1, 0, beltsInRadius + 1].map((step) => cosines(belt + step, height)[0]),
  );
  return reachApart(0, least * reachInto, km + slack) + 1e-9;
}

/**
 * For each place the sum over all that may be within reach: belt against belt, with one reach for both, so that both ends
 * of the window move on with the place.
 */
function bounds({ longitude }: Weighted, belts: Belts, km: number): Float64Array {
  const out = new Float64Array(longitude.length);
  const { start, height } = belts;
  const room = beltsInRadius + 1;
  for (let i = 0; i + 1 < start.length; i++) {
    if (start[i] === start[i + 1]) continue;
    const own = cosines(i, height)[0];
    for (let j = Math.max(0, i - room); j <= i + room && j + 1 < start.length; j++) {
      if (start[j] === start[j + 1]) continue;
      const apart = Math.max(0, Math.abs(i - j) - 1) * height;
      const width = reachApart(apart, own * cosines(j, height)[0], km + slack);
      if (width >= 0) addWindows(out, belts, i, j, width);
    }
  }
  return out;
}

function addWindows(out: Float64Array, belts: Belts, i: number, j: number, width: number): void {
  const { start, place, longitude, before } = belts;
  const end = start[j + 1]!;
  let first = start[j]!;
  let last = first;
  for (let entry = start[i]!; entry < start[i + 1]!; entry++) {
    const at = longitude[entry]!;
    if (at < -180 || at >= 180) continue;
    while (first < end && longitude[first]! < at - width) first++;
    while (last < end && longitude[last]! <= at + width) last++;
    out[place[entry]!]! += before[last]! - before[first]!;
  }
}

/** Whole stretches of a belt that surely lie within, and each place of those that may. */
function exactSum(
  { longitude, latitude, weight }: Weighted,
  belts: Belts,
  km: number,
  place: number,
  within: (a: number, b: number) => boolean,
): number {
  const { height, start, place: places, longitude: lon, before, total } = belts;
  const lat = latitude[place]!;
  const at = longitude[place]! >= 180 ? longitude[place]! - 360 : longitude[place]!;
  const own = beltOf(lat, height);
  const cos = cosine(lat);
  let sum = 0;
  const tested = (from: number, to: number) => {
    for (let i = from; i < to; i++) if (within(place, places[i]!)) sum += weight[places[i]!]!;
  };
  const last = Math.min(start.length - 2, own + beltsInRadius + 1);
  for (let j = Math.max(0, own - beltsInRadius - 1); j <= last; j++) {
    const [from, to] = [start[j]!, start[j + 1]!];
    if (from === to) continue;
    const [south, north] = [j * height - 90, (j + 1) * height - 90];
    const [least, greatest] = cosines(j, height);
    const nearest = Math.max(0, south - lat, lat - north);
    const outer = reachApart(nearest, cos * least, km + slack);
    if (Number.isNaN(outer)) continue;
    const farthest = Math.max(north - lat, lat - south);
    const inner = reachApart(farthest, cos * greatest, km - slack);
    if (inner >= 180) {
      sum += total[j]!;
      continue;
    }
    const west = firstAfter(lon, from, to, at - outer, outer >= 180);
    const east = firstAfter(lon, west, to, at + outer, true);
    if (Number.isNaN(inner)) {
      tested(west, east);
      continue;
    }
    const innerWest = firstAfter(lon, west, east, at - inner, false);
    const innerEast = firstAfter(lon, innerWest, east, at + inner, true);
    tested(west, innerWest);
    sum += before[innerEast]! - before[innerWest]!;
    tested(innerEast, east);
  }
  return sum;
}

/** First entry of an ascending stretch that is not below a value, or, beyond it, above it. */
function firstAfter(
  values: Float64Array,
  from: number,
  to: number,
  value: number,
  beyond: boolean,
): number {
  let [low, high] = [from, to];
  while (low < high) {
    const middle = (low + high) >> 1;
    const found = values[middle]!;
    if (found < value || (beyond && found === value)) low = middle + 1;
    else high = middle;
  }
  return low;
}
