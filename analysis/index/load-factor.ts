import type { Constants } from '../constants.ts';
import { type LoadDraws, loadFacts } from './load-draws.ts';
import type { Factor } from './product-quantile.ts';

/** Nodes of the rain: equal in weight. */
export const NODES = 5;

/** Tables and constants that a load factor is made of. */
export const loadFactorReads = ['load_draw', 'half_load_l_m2', 'weight_load'];

/**
 * The load w^α of one wall at a time over the draws of its load_case and the nodes of the rain. What it holds is used
 * again for the next wall, so that a million walls make no objects.
 */
export interface LoadFactor extends Factor {
  /** Draws of the wall taken up. */
  draws: LoadDraws;
  /** Mean of w^α over draws and nodes, rounded to 1e-6. */
  mean: number;
  /** Takes up a wall of this load_case under the nodes of its rain, mm. */
  readonly meet: (loadCase: number, rain: Float64Array) => void;
}

/** The arrays, as long as the widest case needs them. */
export function loadFactor(
  cases: ReadonlyMap<number, LoadDraws>,
  constants: Constants,
): LoadFactor {
  const widest = Math.max(0, ...Array.from(cases.values(), ({ weights }) => weights.length));
  const weights = new Map(Array.from(cases, ([id, draws]) => [id, nodeWeights(draws)]));
  const halfLoad = constants.half_load_l_m2!;
  const alpha = constants.weight_load!;
  const factor: LoadFactor = {
    n: 0,
    values: new Float64Array(NODES * widest),
    weights: new Float64Array(0),
    draws: cases.values().next().value!,
    mean: 0,
    meet: (loadCase, rain) => {
      factor.draws = cases.get(loadCase)!;
      factor.weights = weights.get(loadCase)!;
      fill(factor, rain, halfLoad, alpha);
    },
  };
  return factor;
}

/** Weight of every draw at every node, over the whole. */
function nodeWeights({ shares }: LoadDraws): Float64Array {
  const n = shares.length;
  return Float64Array.from({ length: NODES * n }, (_, i) => shares[i % n]! / NODES);
}

/**
 * w = wetting / (wetting + half-load), and w^α of every draw at every node, both rounded to 1e-6. The mean is a sum of
 * whole numbers, so that its order cannot change a digit.
 */
function fill(factor: LoadFactor, rain: Float64Array, halfLoad: number, alpha: number): void {
  const { values } = factor;
  const { coefficients, weights, total } = factor.draws;
  const n = coefficients.length;
  let sum = 0;
  for (let node = 0, at = 0; node < NODES; node++) {
    const mm = rain[node]!;
    for (let m = 0; m < n; m++, at++) {
      const wetting = Math.round(coefficients[m]! * mm * 1e5) / 1e5;
      let millionths = Math.round((wetting / (wetting + halfLoad)) * 1e6);
      // x ** 1 is x, but takes ten times as long.
      if (alpha !== 1) millionths = Math.round((millionths / 1e6) ** alpha * 1e6);
      values[at] = millionths / 1e6;
      sum += weights[m]! * millionths;
    }
  }
  factor.n = NODES * n;
  factor.mean = Math.round((sum / (NODES * total) / 1e6) * 1e6) / 1e6;
}

/** How much the rain and each fact of the load explain of its spread. */
export interface LoadMoments {
  mean: number;
  /** Mean of the square. */
  square: number;
  /** Variance of the mean given the rain, then given each of `loadFacts`; 0 where the fact is on record. */
  readonly explained: Float64Array;
  /** Takes up what the factor holds. */
  readonly weigh: (factor: LoadFactor) => void;
}

export function loadMoments(): LoadMoments {
  const explained = new Float64Array(1 + loadFacts.length);
  let byDraw = new Float64Array(0);
  const moments: LoadMoments = {
    mean: 0,
    square: 0,
    explained,
    weigh: (factor) => {
      const n = factor.draws.weights.length;
      if (byDraw.length < n) byDraw = new Float64Array(n);
      weighNodes(moments, factor, byDraw);
      weighFacts(moments, factor.draws, byDraw);
    },
  };
  return moments;
}

/** Mean, mean square and what the rain explains; `byDraw` becomes the mean of each draw over the rain. */
function weighNodes(moments: LoadMoments, factor: LoadFactor, byDraw: Float64Array): void {
  const { shares } = factor.draws;
  const byNode = new Float64Array(NODES);
  byDraw.fill(0);
  let square = 0;
  for (let node = 0, at = 0; node < NODES; node++) {
    for (let m = 0; m < shares.length; m++, at++) {
      const w = factor.values[at]!;
      const share = shares[m]!;
      byNode[node]! += share * w;
      byDraw[m]! += w / NODES;
      square += (share * w * w) / NODES;
    }
  }
  const mean = byNode.reduce((sum, w) => sum + w, 0) / NODES;
  moments.mean = mean;
  moments.square = square;
  moments.explained.fill(0);
  moments.explained[0] = byNode.reduce((sum, w) => sum + (w - mean) ** 2, 0) / NODES;
}

function weighFacts(moments: LoadMoments, { given }: LoadDraws, byDraw: Float64Array): void {
  for (const { fact, levels } of given) {
    let variance = 0;
    for (const { share, places, shares } of levels) {
      let w = 0;
      for (let m = 0; m < places.length; m++) w += shares[m]! * byDraw[places[m]!]!;
      variance += share * (w - moments.mean) ** 2;
    }
    moments.explained[1 + fact] = variance;
  }
}
