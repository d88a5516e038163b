import { exactLoad, type LoadCases } from './load-cases.ts';
import { loadCurve, numbersAtOnce } from './load-curve.ts';
import { cellsPerLog, type LoadProfiles } from './load-profiles.ts';
import type { RainNodes } from './rain-nodes.ts';
import type { WallFacts } from './wall-facts.ts';

/** Where the tables lie: ln wetting (L/m²) of their first place, and their places. */
export interface TableSpan {
  readonly from: number;
  readonly places: number;
}

/** Less wetting than this, in ln of L/m², is not tabulated: the rounding of w would be most of it. */
const leastLog = Math.log(0.01);

/** The span that all rains and load_cases of the portfolio need, with places to spare at both ends. */
export function tableSpan(rain: RainNodes, { logGreatest }: LoadProfiles): TableSpan {
  const [dry, wet] = ends(rain.logMedian);
  const [least, most] = ends(logGreatest);
  if (!(dry <= wet && least <= most)) return { from: 0, places: 0 };
  const from = Math.max(leastLog, dry + least) - 2 / cellsPerLog;
  return { from, places: Math.max(0, Math.ceil((wet + most - from) * cellsPerLog) + 4) };
}

/** The least and the greatest finite value. */
function ends(values: Float64Array): readonly [number, number] {
  let [least, greatest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (!Number.isFinite(value)) continue;
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  return [least, greatest];
}

/** What the tables are made for. */
export interface LoadGround {
  readonly walls: WallFacts;
  readonly rain: RainNodes;
  readonly cases: LoadCases;
  readonly profiles: LoadProfiles;
  readonly span: TableSpan;
  readonly halfLoad: number;
}

/** One α read off tables: for each profile the places of the span, four numbers each (as in a LoadCurve). */
export interface LoadTables {
  readonly values: Float64Array;
  /** Millionths to add to a table's own bound. */
  readonly extra: number;
}

export function loadTables(ground: LoadGround, alpha: number): LoadTables {
  const { cases, rain, halfLoad, span, profiles } = ground;
  const above = 3;
  const below = profiles.reach;
  const greatest = cases.greatest.reduce((most, x) => Math.max(most, x), 0);
  const curve = loadCurve(
    { alpha, halfLoad, rain, greatest },
    span.from - below / cellsPerLog,
    below + span.places + above,
  );
  const values = new Float64Array(profiles.taps.length * span.places * numbersAtOnce);
  for (const [id, { offset, weight, share }] of profiles.taps.entries()) {
    const own = values.subarray(id * span.places * numbersAtOnce);
    for (let i = 0; i < offset.length; i++) {
      const seen = curve.values.subarray((below + offset[i]!) * numbersAtOnce);
      mix(own, seen, weight[i]!, share[i]!, span.places * numbersAtOnce);
    }
  }
  // w^1 and w^0 need no rounding of their own; any other power is rounded to a millionth.
  const powerRounding = alpha === 1 || alpha === 0 ? 0 : 0.5;
  return { values, extra: curve.interpolation + powerRounding + 1e-4 };
}

function mix(
  own: Float64Array,
  seen: Float64Array,
  weight: number,
  share: number,
  length: number,
): void {
  for (let at = 0; at < length; at += numbersAtOnce) {
    own[at]! += weight * seen[at]!;
    own[at + 1]! += weight * seen[at + 1]!;
    own[at + 2]! += weight * seen[at + 2]!;
    own[at + 3]! += share * seen[at + 3]!;
  }
}

/**
 * The range in which w_mean of each load lies under α, in millionths, both ends included: written into `low` and `high`.
 * A load beyond the tables (hardly any rain meets it, or its nodes follow no median and spread) may lie anywhere.
 */
export function loadRange(
  ground: LoadGround,
  { values, extra }: LoadTables,
  low: Int32Array,
  high: Int32Array,
): void {
  const { loadStart, loadCase } = ground.walls;
  const { logMedian, place } = ground.rain;
  const { places, from } = ground.span;
  const shift = ground.profiles.logGreatest.map((log) => (log - from) * cellsPerLog);
  const base = ground.profiles.of.map((id) => id * places);
  const last = places - 2;
  for (let b = 0; b < logMedian.length; b++) {
    const cells = logMedian[b]! * cellsPerLog;
    const v = place[b]!;
    const least = (v * (v - 1)) / 2;
    const middle = 1 - v * v;
    const greatest = (v * (v + 1)) / 2;
    for (let p = loadStart[b]!; p < loadStart[b + 1]!; p++) {
      const u = cells + shift[loadCase[p]!]!;
      if (!(u >= 1 && u < last)) {
        low[p] = 0;
        high[p] = 1_000_000;
        continue;
      }
      const cell = u | 0;
      const t = u - cell;
      const at = (base[loadCase[p]!]! + cell - 1) * numbersAtOnce;
      // The cubic through the four places around u.
      const c0 = (-t * (t - 1) * (t - 2)) / 6;
      const c1 = ((t + 1) * (t - 1) * (t - 2)) / 2;
      const c2 = (-(t + 1) * t * (t - 2)) / 2;
      const c3 = ((t + 1) * t * (t - 1)) / 6;
      const mean =
        least *
          (c0 * values[at]! + c1 * values[at + 4]! + c2 * values[at + 8]! + c3 * values[at + 12]!) +
        middle *
          (c0 * values[at + 1]! +
            c1 * values[at + 5]! +
            c2 * values[at + 9]! +
            c3 * values[at + 13]!) +
        greatest *
          (c0 * values[at + 2]! +
            c1 * values[at + 6]! +
            c2 * values[at + 10]! +
            c3 * values[at + 14]!);
      const off = extra + values[at + 7]!;
      // Cut off, not rounded: what is above zero is then rounded, and faster.
      low[p] = Math.max(0, mean - off + 0.5);
      high[p] = Math.min(1_000_000, mean + off + 0.5);
    }
  }
}

/** Works out single loads exactly under α: the place of the load and its building in, millionths out. */
export function exactly(
  { walls, cases, rain, halfLoad }: LoadGround,
  alpha: number,
): (load: number, b: number) => number {
  const mean = exactLoad(cases, alpha, halfLoad);
  return (load, b) => mean(walls.loadCase[load]!, rain.nodes, 5 * b);
}
