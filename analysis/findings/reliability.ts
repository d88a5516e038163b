import { chanceAt, type Outcomes } from './logistic.ts';

/** Walls of like prediction: what was foretold beside what was seen. */
export interface ReliabilityBin {
  /** Least and greatest prediction. */
  readonly from: number;
  readonly to: number;
  /** Weighted means. */
  readonly predicted: number;
  readonly observed: number;
  /** Walls. */
  readonly n: number;
}

const bins = 5;

/** Predictions of walls that the model had not seen, in up to five bins of as many walls each. */
export function reliability({ y, weight }: Outcomes, eta: Float64Array): ReliabilityBin[] {
  const order = Array.from(eta, (_, i) => i).sort((i, j) => eta[i]! - eta[j]! || i - j);
  return Array.from({ length: bins }, (_, b): ReliabilityBin => {
    const rows = order.slice(
      Math.round((b * order.length) / bins),
      Math.round(((b + 1) * order.length) / bins),
    );
    const total = rows.reduce((sum, i) => sum + weight[i]!, 0);
    const mean = (of: (i: number) => number): number =>
      rows.reduce((sum, i) => sum + weight[i]! * of(i), 0) / total;
    return {
      from: chanceAt(eta[rows[0]!]!),
      to: chanceAt(eta[rows.at(-1)!]!),
      predicted: mean((i) => chanceAt(eta[i]!)),
      observed: mean((i) => y[i]!),
      n: rows.length,
    };
  });
}
