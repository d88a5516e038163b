import type { Distribution } from './interval.ts';

/** Slack of the quantile rule: the smallest value whose cumulative weight ≥ q − 1e-12. */
const SLACK = 1e-12;

/** Products that are looked at one by one, once no more are left. */
const FEW = 32;

/** Share of the bracket by which a probe goes beyond where the quantile is expected, so as to close in from afar. */
const BEYOND = 0.04;

/** The other factor: `n` values in any order, none below 0, and their weights, which add up to 1. */
export interface Factor {
  n: number;
  readonly values: Float64Array;
  weights: Float64Array;
}

/**
 * Where the search begins, and where the last one for factors much like these ended: that changes the time it takes, no
 * digit. `reach` has a place for each value of the factor.
 */
export interface Near {
  value: number;
  readonly reach: Int32Array;
}

/** One end of the bracket: how many products lie up to `value`, their weight, and how many of `b` each value of `a` takes. */
interface End {
  value: number;
  weight: number;
  count: number;
  reach: Int32Array;
}

const newEnd = (n: number): End => ({ value: 0, weight: 0, count: 0, reach: new Int32Array(n) });

/** What is used again for every wall. */
interface Scratch {
  low: End;
  high: End;
  probe: End;
  readonly values: Float64Array;
  readonly weights: Float64Array;
}

const newScratch = (n: number): Scratch => ({
  low: newEnd(n),
  high: newEnd(n),
  probe: newEnd(n),
  values: new Float64Array(FEW),
  weights: new Float64Array(FEW),
});

/** Quantile q of a · b. `near` is left as this search ended, for the next. */
export type ProductQuantile = (a: Factor, b: Distribution, q: number, near: Near) => number;

/**
 * Quantiles of products of two weighted sets: the smallest product whose cumulative weight reaches q. Closes in on it
 * by counting, then sorts the few products that remain, instead of forming all of them. Not to be shared by threads:
 * its arrays are used again by every call.
 */
export function productQuantiles(): ProductQuantile {
  let scratch = newScratch(0);
  return (a, b, q, near) => {
    if (scratch.low.reach.length < a.n) scratch = newScratch(2 * a.n);
    wholeBracket(scratch, a, b);
    const few = closeIn(scratch, a, b, q - SLACK, near);
    near.value = few ? firstToReach(scratch, a, b, q - SLACK) : scratch.high.value;
    for (let i = 0; i < a.n; i++) near.reach[i] = scratch.low.reach[i]!;
    return near.value;
  };
}

/** From below every product to the greatest of them. */
function wholeBracket({ low, high }: Scratch, a: Factor, b: Distribution): void {
  let greatest = 0;
  for (let i = 0; i < a.n; i++) greatest = Math.max(greatest, a.values[i]!);
  const m = b.values.length;
  low.value = 0;
  low.weight = 0;
  low.count = 0;
  low.reach.fill(0, 0, a.n);
  high.value = greatest * b.values[m - 1]!;
  high.weight = 1;
  high.count = a.n * m;
  high.reach.fill(m, 0, a.n);
}

/** False where all products that are left are one number, `high.value`. */
function closeIn(
  scratch: Scratch,
  a: Factor,
  b: Distribution,
  target: number,
  near: Near,
): boolean {
  let halve = false;
  let reach = near.reach;
  for (let probes = 0; ; probes++) {
    const { low, high } = scratch;
    const left = high.count - low.count;
    if (left <= FEW) return true;
    const middle = low.value + (high.value - low.value) / 2;
    if (!(middle > low.value && middle < high.value)) return false;
    const t = halve ? middle : expected(scratch, target, near.value, probes);
    count(scratch.probe, a, b, t > low.value && t < high.value ? t : middle, reach);
    reach = scratch.probe.reach;
    narrow(scratch, target);
    halve = probes > 2 && scratch.high.count - scratch.low.count > left / 2;
  }
}

/** The probe takes the place of the end on its side of the target. */
function narrow(scratch: Scratch, target: number): void {
  const { low, high, probe } = scratch;
  if (probe.weight >= target) {
    scratch.high = probe;
    scratch.probe = high;
  } else {
    scratch.low = probe;
    scratch.probe = low;
  }
}

/** First at `near`, then a little to its other side, then where a straight line meets the target, and a little beyond. */
function expected({ low, high }: Scratch, target: number, near: number, probes: number): number {
  if (probes === 0) return near;
  if (probes === 1) return low.value === near ? near * (1 + BEYOND) : near * (1 - BEYOND);
  const share = (target - low.weight) / (high.weight - low.weight);
  const beyond = Math.min(BEYOND, FEW / 3 / (high.count - low.count));
  return low.value + (high.value - low.value) * (share < 0.5 ? share + beyond : share - beyond);
}

/** Counts and weighs the products up to t; `from` is about how many of `b` each value of `a` takes. */
function count(end: End, a: Factor, b: Distribution, t: number, from: Int32Array): void {
  const { n, values: as, weights } = a;
  const { values: bs, below } = b;
  const m = bs.length;
  const { reach } = end;
  let weight = 0;
  let products = 0;
  for (let i = 0; i < n; i++) {
    const value = as[i]!;
    let j = from[i]!;
    while (j < m && value * bs[j]! <= t) j++;
    while (j > 0 && value * bs[j - 1]! > t) j--;
    reach[i] = j;
    products += j;
    weight += weights[i]! * below[j]!;
  }
  end.value = t;
  end.weight = weight;
  end.count = products;
}

/** The first of the products in the bracket, by size, with which the weight reaches the target. */
function firstToReach(scratch: Scratch, a: Factor, b: Distribution, target: number): number {
  const { values, weights, low, high } = scratch;
  const n = sortedProducts(scratch, a, b);
  let sum = low.weight;
  for (let i = 0; i < n; i++) {
    sum += weights[i]!;
    if (sum >= target - SLACK) return values[i]!;
  }
  return high.value;
}

/** Puts the products of the bracket and their weights into the scratch arrays, ascending; returns how many. */
function sortedProducts(
  { values, weights, low, high }: Scratch,
  a: Factor,
  b: Distribution,
): number {
  let n = 0;
  for (let i = 0; i < a.n; i++) {
    for (let j = low.reach[i]!; j < high.reach[i]!; j++) {
      const product = a.values[i]! * b.values[j]!;
      let at = n++;
      for (; at > 0 && values[at - 1]! > product; at--) {
        values[at] = values[at - 1]!;
        weights[at] = weights[at - 1]!;
      }
      values[at] = product;
      weights[at] = a.weights[i]! * b.shares[j]!;
    }
  }
  return n;
}
