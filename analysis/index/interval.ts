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

/** Halvings before the products that are left are looked at one by one. */
const HALVINGS = 10;

/**
 * Quantile of a · b, where `b` is one distribution and `a` is drawn from one of several, all alike in weight (the nodes
 * of the rain): the smallest product whose cumulative weight reaches q. Closes in by halving, then sorts the few
 * products that remain, instead of forming all of them.
 */
export function productQuantile(
  nodes: readonly Distribution[],
  b: Distribution,
  q: number,
): number {
  const target = (q - SLACK) * nodes.length;
  let low = 0;
  let high = b.values.at(-1)! * Math.max(...nodes.map(({ values }) => values.at(-1)!));
  let below = weightUpTo(nodes, b, low);
  if (below >= target) return low;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    const weight = weightUpTo(nodes, b, middle);
    if (weight >= target) high = middle;
    else [low, below] = [middle, weight];
  }
  return firstToReach(productsBetween(nodes, b, low, high), target - below) ?? high;
}

function weightUpTo(nodes: readonly Distribution[], b: Distribution, t: number): number {
  let sum = 0;
  for (const a of nodes) sum += cumulativeProduct(a, b, t);
  return sum;
}

type Weighted = readonly [value: number, weight: number];

function firstToReach(products: Weighted[], target: number): number | undefined {
  let sum = 0;
  for (const [value, weight] of products.sort(([x], [y]) => x - y)) {
    sum += weight;
    if (sum >= target - SLACK) return value;
  }
  return undefined;
}

/** The products in (low, high] with their weights. */
function productsBetween(
  nodes: readonly Distribution[],
  b: Distribution,
  low: number,
  high: number,
): Weighted[] {
  const found: Weighted[] = [];
  for (const a of nodes) {
    let top = b.values.length - 1;
    for (let i = 0; i < a.values.length; i++) {
      const value = a.values[i]!;
      while (top >= 0 && value * b.values[top]! > high) top--;
      for (let j = top; j >= 0 && value * b.values[j]! > low; j--) {
        found.push([value * b.values[j]!, weightAt(a, i) * weightAt(b, j)]);
      }
    }
  }
  return found;
}

const weightAt = ({ cumulative }: Distribution, i: number): number =>
  cumulative[i]! - (i > 0 ? cumulative[i - 1]! : 0);

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
