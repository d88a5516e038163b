/** A weighted discrete set, values ascending; `cumulative[i]` is the weight of values[0 … i] over the whole. */
export interface Distribution {
  readonly values: Float64Array;
  readonly cumulative: Float64Array;
}

/** Slack of the quantile rule: the smallest value whose cumulative weight ≥ q − 1e-12. */
const SLACK = 1e-12;

/** Builds a Distribution from unsorted values and positive weights. */
export function distribution(values: readonly number[], weights: readonly number[]): Distribution {
  const order = values.map((_, i) => i).sort((a, b) => values[a]! - values[b]!);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  let sum = 0;
  return {
    values: Float64Array.from(order, (i) => values[i]!),
    cumulative: Float64Array.from(order, (i) => {
      sum += weights[i]!;
      return sum / total;
    }),
  };
}

/**
 * Quantile of a · b, where `b` is one distribution and `a` is drawn from one of several, all alike in weight (the nodes
 * of the rain): the smallest product whose cumulative weight reaches q. Bisects on the product instead of
 * forming all of them.
 */
export function productQuantile(
  nodes: readonly Distribution[],
  b: Distribution,
  q: number,
): number {
  const reached = (t: number): boolean => {
    let sum = 0;
    for (const a of nodes) sum += cumulativeProduct(a, b, t);
    return sum / nodes.length >= q - SLACK;
  };
  let low = 0;
  let high = b.values.at(-1)! * Math.max(...nodes.map(({ values }) => values.at(-1)!));
  if (reached(low)) return low;
  for (let i = 0; i < 40 && high - low > 1e-9; i++) {
    const middle = (low + high) / 2;
    if (reached(middle)) high = middle;
    else low = middle;
  }
  return Math.max(...nodes.map((a) => greatestProduct(a, b, high)));
}

/** The greatest a·b ≤ t: the value itself, where the bisection only closed in on it. */
function greatestProduct(a: Distribution, b: Distribution, t: number): number {
  let greatest = 0;
  let j = b.values.length - 1;
  for (const value of a.values) {
    while (j >= 0 && value * b.values[j]! > t) j--;
    if (j < 0) break;
    greatest = Math.max(greatest, value * b.values[j]!);
  }
  return greatest;
}

/** P(a·b ≤ t). As a rises the greatest b that keeps the product within t falls, so one pass over both is enough. */
function cumulativeProduct(a: Distribution, b: Distribution, t: number): number {
  let sum = 0;
  let before = 0;
  let j = b.values.length - 1;
  for (let i = 0; i < a.values.length; i++) {
    const value = a.values[i]!;
    while (j >= 0 && value * b.values[j]! > t) j--;
    if (j < 0) return sum;
    sum += (a.cumulative[i]! - before) * b.cumulative[j]!;
    before = a.cumulative[i]!;
  }
  return sum;
}
