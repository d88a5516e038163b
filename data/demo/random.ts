import type { Random } from '../../analysis/sample/random.ts';

/** 0 ≤ u < 1 in steps of 2⁻³². */
const unit = (random: Random): number => random.word() / 2 ** 32;

/** Whole number from `from` to `to`, both included. */
export const between = (random: Random, from: number, to: number): number =>
  from + Math.floor(unit(random) * (to - from + 1));

/** True in `pct` of a hundred draws. */
export const chance = (random: Random, pct: number): boolean => unit(random) * 100 < pct;

export const pick = <T>(random: Random, list: readonly T[]): T =>
  list[Math.floor(unit(random) * list.length)]!;

/** About normal with mean 0 and standard deviation 1: the sum of twelve uniforms less six, arithmetic only. */
export function bell(random: Random): number {
  let sum = -6;
  for (let i = 0; i < 12; i++) sum += unit(random);
  return sum;
}

/** Values with weights, summed up for drawing. */
export interface Weighted<T> {
  readonly values: readonly T[];
  readonly cumulative: readonly number[];
}

export function weighted<T>(rows: readonly T[], weight: (row: T) => number): Weighted<T> {
  const values = rows.filter((row) => weight(row) > 0);
  let sum = 0;
  return { values, cumulative: values.map((row) => (sum += weight(row))) };
}

/** A value, drawn in proportion to its weight. */
export function draw<T>(random: Random, { values, cumulative }: Weighted<T>): T {
  const at = unit(random) * cumulative.at(-1)!;
  let i = 0;
  while (at >= cumulative[i]!) i += 1;
  return values[i]!;
}

/** The list in random order (Fisher and Yates). */
export function shuffled<T>(random: Random, list: readonly T[]): T[] {
  const out = [...list];
  for (let i = out.length - 1; i > 0; i--) {
    const j = between(random, 0, i);
    [out[i], out[j]] = [out[j]!, out[i]!];
  }
  return out;
}
