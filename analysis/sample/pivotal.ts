import { neighbours } from './nearest.ts';
import { below, type Random, shuffled, unit } from './random.ts';
import type { Points } from './space.ts';

/** What is left of a chance by rounding is 0 or 1. */
const tiny = 1e-9;

const settled = (chance: number): number => {
  if (chance < tiny) return 0;
  return chance > 1 - tiny ? 1 : chance;
};

/**
 * One contest of two neighbours: their chances a and b go to one of them as far as it can take them, so that each keeps its
 * chance on average (Deville and Tillé 1998).
 */
function contest(a: number, b: number, random: Random): readonly [number, number] {
  const sum = a + b;
  if (sum < 1) return unit(random) * sum < b ? [0, sum] : [sum, 0];
  return unit(random) * (2 - sum) < 1 - b ? [1, sum - 1] : [sum - 1, 1];
}

/** The undecided units, for drawing any one of them and for letting one go. */
function undecided(order: Int32Array) {
  const members = order.slice();
  const placeOf = new Map(Array.from(members, (m, k) => [m, k]));
  let left = members.length;
  return {
    count: () => left,
    any: (random: Random): number => members[below(random, left)]!,
    remove(m: number): void {
      const place = placeOf.get(m)!;
      left -= 1;
      members[place] = members[left]!;
      placeOf.set(members[place]!, place);
    },
  };
}

/**
 * Local pivotal method 2 of Grafström, Lundström and Schelin, *Spatially balanced sampling through the pivotal method*,
 * Biometrics 68 (2012): a random unit contests with its nearest neighbour until all are decided, so that near units are
 * seldom taken together. Returns places in `chances` (0-1, adding up to a whole number), rising.
 */
export function localPivotal(points: Points, chances: Float64Array, random: Random): Int32Array {
  const chance = chances.map(settled);
  const all = Int32Array.from({ length: points.n }, (_, i) => i);
  const order = shuffled(
    random,
    all.filter((i) => chance[i]! > 0 && chance[i]! < 1),
  );
  const open = undecided(order);
  const near = neighbours(points, order);
  const decide = (i: number, value: number): void => {
    chance[i] = settled(value);
    if (chance[i] !== 0 && chance[i] !== 1) return;
    open.remove(i);
    near.remove(i);
  };
  while (open.count() > 1) {
    const i = open.any(random);
    const j = near.nearest(i);
    const [a, b] = contest(chance[i]!, chance[j]!, random);
    decide(i, a);
    decide(j, b);
  }
  // The chances add up to a whole number, so the last is 0 or 1 but for rounding.
  if (open.count() === 1) {
    const last = open.any(random);
    chance[last] = Math.round(chance[last]!);
  }
  return all.filter((i) => chance[i] === 1);
}
