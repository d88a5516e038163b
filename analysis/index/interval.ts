/** A weighted discrete set: values ascending and ≥ 0; `below[i]` is the weight of the first i values over the whole. */
export interface Distribution {
  readonly values: Float64Array;
  readonly below: Float64Array;
  /** Weight of each value over the whole. */
  readonly shares: Float64Array;
}

/** Builds a Distribution from unsorted values and positive weights. */
export function distribution(values: readonly number[], weights: readonly number[]): Distribution {
  const order = values.map((_, i) => i).sort((a, b) => values[a]! - values[b]!);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const below = new Float64Array(order.length + 1);
  let sum = 0;
  for (const [place, i] of order.entries()) {
    sum += weights[i]!;
    below[place + 1] = sum / total;
  }
  return {
    values: Float64Array.from(order, (i) => values[i]!),
    below,
    shares: Float64Array.from(order, (i) => weights[i]! / total),
  };
}
