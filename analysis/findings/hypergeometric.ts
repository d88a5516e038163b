import { binomialAtMost, binomialChance } from './binomial.ts';

/** A population of `size` units, `marked` of which have the attribute, and `drawn` of which are opened. */
export interface Draw {
  readonly size: number;
  readonly marked: number;
  readonly drawn: number;
}

/** Chance that exactly x of the drawn units are marked; in Loader's form, as a ratio of three binomial chances. */
export function hypergeometricChance(x: number, { size, marked, drawn }: Draw): number {
  if (x < Math.max(0, drawn - (size - marked)) || x > Math.min(drawn, marked)) return 0;
  const p = drawn / size;
  return (
    (binomialChance(x, marked, p) * binomialChance(drawn - x, size - marked, p)) /
    binomialChance(drawn, size, p)
  );
}

/**
 * Chance that at most x of the drawn units are *seen* to be marked, where an opening on a marked unit sees it with chance
 * `detection`.
 */
export function seenAtMost(x: number, draw: Draw, detection = 1): number {
  let sum = 0;
  const least = Math.max(0, draw.drawn - (draw.size - draw.marked));
  const most = detection === 1 ? Math.min(x, draw.marked) : Math.min(draw.drawn, draw.marked);
  for (let k = least; k <= most; k += 1) {
    const chance = hypergeometricChance(k, draw);
    sum += detection === 1 ? chance : chance * binomialAtMost(x, k, detection);
  }
  return Math.min(1, sum);
}
