/**
 * Equal bins over a number column: bin k holds edges[k] ≤ value < edges[k + 1], compared as the filters compare (`mask.ts`).
 * The first and the last bin are open outward, so that every value on record lies in one.
 */
export type Edges = Float64Array;

/** Edges are rounded here, so that an edge put into a filter or an address reads 0.15, not 0.15000000000000002. */
const EDGE_STEPS = 1e9;

/** The n + 1 edges of n bins. */
export function edgesOf(from: number, step: number, n: number): Edges {
  return Float64Array.from(
    { length: n + 1 },
    (_, k) => Math.round((from + k * step) * EDGE_STEPS) / EDGE_STEPS,
  );
}

const roundSteps = [1, 2, 5] as const;

/** Edges from 0 past `reach` by a round step (1, 2 or 5 times a power of ten): as many bins as `most` allows. */
export function roundEdges(reach: number, most: number): Edges {
  const past = reach > 0 && Number.isFinite(reach) ? reach : 1;
  for (let power = 1e-6; ; power *= 10) {
    for (const unit of roundSteps) {
      const n = Math.ceil(past / (unit * power));
      if (n <= most) return edgesOf(0, unit * power, n);
    }
  }
}

/** Bin of a value; −1 where there is no record (NaN). */
export function binOf(edges: Edges, value: number): number {
  const n = edges.length - 1;
  const low = edges[0]!;
  // NaN fails every comparison.
  if (!(value >= low)) return value < low ? 0 : -1;
  let k = Math.min(n - 1, Math.floor(((value - low) * n) / (edges[n]! - low)));
  // The quotient may round across an edge; the edges decide.
  if (k > 0 && value < edges[k]!) k--;
  else if (k < n - 1 && value >= edges[k + 1]!) k++;
  return k;
}

/** The largest value on record; 0 where there is none. */
export function largest(values: Float64Array): number {
  let most = 0;
  for (let b = 0; b < values.length; b++) if (values[b]! > most) most = values[b]!;
  return most;
}
