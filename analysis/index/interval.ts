/** A weighted discrete set, values ascending; `cumulative[i]` is the weight of values[0 … i] over the whole. */
export interface Distribution {
  readonly values: Float64Array;
  readonly cumulative: Float64Array;
}

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

/** Buckets a value: with fewer, more steps are walked inside a bucket. */
const BUCKETS_EACH = 4;

/** A Distribution of values ≥ 0 with a table that says where among them to begin to look. */
export interface Sought extends Distribution {
  /** Weight of each value over the whole. */
  readonly shares: Float64Array;
  /** How many values lie below the beginning of each bucket. */
  readonly begins: Int32Array;
  /** Buckets a unit of value. */
  readonly scale: number;
}

export function sought({ values, cumulative }: Distribution): Sought {
  const buckets = BUCKETS_EACH * values.length;
  const greatest = values.at(-1)!;
  const scale = greatest > 0 ? buckets / greatest : 0;
  const begins = new Int32Array(buckets + 1);
  for (let bucket = 0, i = 0; bucket <= buckets; bucket++) {
    while (i < values.length && values[i]! * scale < bucket) i++;
    begins[bucket] = i;
  }
  const shares = cumulative.map((sum, i) => sum - (i > 0 ? cumulative[i - 1]! : 0));
  return { values, cumulative, shares, begins, scale };
}
