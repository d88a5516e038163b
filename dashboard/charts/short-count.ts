import { digits } from '../parts/format.ts';

/** A count that fits a cell: whole to 9,999, then in thousands, then in millions. */
export function shortCount(n: number): string {
  if (n < 10_000) return digits(n, 0);
  if (n < 999_500) return `${digits(n / 1000, 0)}k`;
  return `${digits(n / 1e6, 1)}M`;
}
