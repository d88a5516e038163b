import type { LoadCases } from './load-cases.ts';

/**
 * The mean of w^α over a load_case's draws is a mean of one curve of ln wetting, looked at from shifted places. Cases
 * whose coefficients differ by a factor alone (F_E, F_D or κ on record, the wind open) share the shifts: they are one
 * profile, and its table serves them all.
 */
export interface LoadProfiles {
  /** Profile of each load_case. */
  readonly of: Int32Array;
  /** ln of each load_case's greatest coefficient; −∞ where no rain meets the wall. */
  readonly logGreatest: Float64Array;
  readonly taps: readonly Taps[];
  /** Farthest cells that any tap looks down. */
  readonly reach: number;
}

/** What a profile takes of the curve `offset` cells from its greatest draw. */
interface Taps {
  readonly offset: Int32Array;
  /** Weights of cubic interpolation, adding up to 1 (or less, where some draws meet no rain). */
  readonly weight: Float64Array;
  /** Share of the draws that lie in the cell from here to the next. */
  readonly share: Float64Array;
}

/** Cells a unit of ln wetting. */
export const cellsPerLog = 32;

/** Coefficients are rounded to 1e-9, so that equal ratios differ a little: by no more than this in ln. */
export const sameRatio = 1e-7;

interface Profile {
  readonly logRatios: readonly number[];
  readonly id: number;
}

export function loadProfiles(cases: LoadCases): LoadProfiles {
  const byShares = new Map<string, Profile[]>();
  const taps: Taps[] = [];
  const of = Int32Array.from(cases.greatest, (greatest, c) => {
    const { logRatios, shares } = ratiosOf(cases, c, greatest);
    const alike = listOf(byShares, shares.map((share) => share.toFixed(9)).join());
    const known = alike.find((profile) => close(profile.logRatios, logRatios));
    if (known) return known.id;
    alike.push({ logRatios, id: taps.length });
    return taps.push(tapsOf(logRatios, shares)) - 1;
  });
  const least = taps.reduce((down, { offset }) => Math.min(down, offset[0] ?? 0), 0);
  return { of, logGreatest: cases.greatest.map(Math.log), taps, reach: -least };
}

function listOf(lists: Map<string, Profile[]>, key: string): Profile[] {
  const list = lists.get(key) ?? [];
  lists.set(key, list);
  return list;
}

const close = (a: readonly number[], b: readonly number[]): boolean =>
  a.every((x, i) => Math.abs(x - b[i]!) <= sameRatio);

/** Draws that no rain meets are left out: they add nothing. */
function ratiosOf({ start, coefficient, weight, total }: LoadCases, c: number, greatest: number) {
  const [logRatios, shares]: [number[], number[]] = [[], []];
  for (let i = start[c]!; i < start[c + 1]!; i++) {
    if (coefficient[i] === 0) continue;
    logRatios.push(Math.log(coefficient[i]! / greatest));
    shares.push(weight[i]! / total[c]!);
  }
  return { logRatios, shares };
}

/** Weights of the values at −1, 0, 1 and 2 for the value at t, 0 ≤ t < 1, on the cubic through them. */
const cubic = (t: number): readonly number[] => [
  (-t * (t - 1) * (t - 2)) / 6,
  ((t + 1) * (t - 1) * (t - 2)) / 2,
  (-(t + 1) * t * (t - 2)) / 2,
  ((t + 1) * t * (t - 1)) / 6,
];

function tapsOf(logRatios: readonly number[], shares: readonly number[]): Taps {
  const at = new Map<number, { weight: number; share: number }>();
  const add = (offset: number, weight: number, share: number) => {
    const before = at.get(offset) ?? { weight: 0, share: 0 };
    at.set(offset, { weight: before.weight + weight, share: before.share + share });
  };
  for (const [i, logRatio] of logRatios.entries()) {
    const cell = Math.floor(logRatio * cellsPerLog);
    for (const [j, weight] of cubic(logRatio * cellsPerLog - cell).entries()) {
      add(cell - 1 + j, weight * shares[i]!, j === 1 ? shares[i]! : 0);
    }
  }
  const sorted = [...at].sort(([a], [b]) => a - b);
  return {
    offset: Int32Array.from(sorted, ([offset]) => offset),
    weight: Float64Array.from(sorted, ([, { weight }]) => weight),
    share: Float64Array.from(sorted, ([, { share }]) => share),
  };
}
