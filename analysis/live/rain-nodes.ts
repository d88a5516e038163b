import { type Columns, numbers } from '../columns.ts';
import type { Constants } from '../constants.ts';
import type { Engine } from '../engine/port.ts';
import { inParts } from './wall-facts.ts';

/** Rain of each building, by ordinal. */
export interface RainNodes {
  /** Five nodes a building, in 1e-4 mm: to this they are rounded. 0 where a building has no rain. */
  readonly nodes: Int32Array;
  /** ln of the median rain (mm); NaN where the nodes do not follow from median and spread. */
  readonly logMedian: Float64Array;
  /** Variance of ln rain, placed from −1 at the least of the portfolio to 1 at the greatest. */
  readonly place: Float32Array;
  readonly leastVariance: number;
  readonly greatestVariance: number;
  /** z of the five nodes. */
  readonly z: Float64Array;
}

/** A node may lie this far (mm) from median · exp(z · spread): it was rounded to 1e-4. */
export const nodeRounding = 5.01e-5;

/** Least span of the variances, so that a portfolio of one variance has a place too. */
const leastSpan = 0.01;

const rainText = `SELECT CAST(b AS DOUBLE) AS b, rain_mm, rain_ln_sd, rain_1, rain_2, rain_3, rain_4, rain_5
  FROM building WHERE b >= ? AND b < ? AND rain_mm IS NOT NULL`;

/** Rain of the `n` buildings of the table `building`. */
export async function rainNodes(
  engine: Engine,
  n: number,
  { node_outer_z: outer, node_inner_z: inner }: Constants,
): Promise<RainNodes> {
  const z = Float64Array.of(-outer!, -inner!, 0, inner!, outer!);
  const nodes = new Int32Array(5 * n);
  const logMedian = new Float64Array(n).fill(Number.NaN);
  const place = new Float32Array(n);
  const take = (rows: Columns) => fill(rows, z, nodes, logMedian, place);
  await inParts(engine, n, rainText, take);
  return { nodes, logMedian, z, place, ...spanOf(logMedian, place) };
}

function fill(
  rows: Columns,
  z: Float64Array,
  nodes: Int32Array,
  logMedian: Float64Array,
  variance: Float32Array,
): void {
  const [b, mm, sd] = ['b', 'rain_mm', 'rain_ln_sd'].map((name) => numbers(rows, name));
  const columns = [1, 2, 3, 4, 5].map((i) => numbers(rows, `rain_${i}`));
  for (let i = 0; i < rows.n; i++) {
    let follows = mm![i]! > 0;
    for (let node = 0; node < 5; node++) {
      const rain = columns[node]![i]!;
      nodes[5 * b![i]! + node] = Math.round(rain * 1e4);
      follows &&= Math.abs(rain - mm![i]! * Math.exp(z[node]! * sd![i]!)) <= nodeRounding;
    }
    if (!follows) continue;
    logMedian[b![i]!] = Math.log(mm![i]!);
    variance[b![i]!] = sd![i]! ** 2;
  }
}

/** The span of the variances; each is then put in its place within it. */
function spanOf(logMedian: Float64Array, variance: Float32Array) {
  let [least, greatest] = [Number.POSITIVE_INFINITY, 0];
  for (let b = 0; b < variance.length; b++) {
    if (Number.isNaN(logMedian[b]!)) continue;
    least = Math.min(least, variance[b]!);
    greatest = Math.max(greatest, variance[b]!);
  }
  least = Math.min(least, greatest);
  greatest = Math.max(greatest, least + leastSpan);
  for (let b = 0; b < variance.length; b++) {
    variance[b] = (2 * (variance[b]! - least)) / (greatest - least) - 1;
  }
  return { leastVariance: least, greatestVariance: greatest };
}
