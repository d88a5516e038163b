import { chancesBySize } from './chances.ts';
import { counted, type Outcome, refused } from './types.ts';

/**
 * Chances with which one of several independent draws selects each unit. Units certain for all openings together are taken
 * once and leave the draws; the draws are of equal size, so that they differ by chance alone, and what does not divide is
 * left out.
 */
export function replicateChances(
  sizes: Float64Array,
  n: number,
  replicates: number,
): Outcome<{ chances: Float64Array; openings: number }> {
  const together = chancesBySize(sizes, n);
  const certain = together.filter((chance) => chance === 1).length;
  const each = Math.floor((n - certain) / replicates);
  const all = certain === sizes.length;
  if (each === 0 && !all)
    return refused(
      `${counted(n - certain, 'opening')} left to chance cannot make ${replicates} independent draws: take more openings or fewer draws.`,
    );
  const one = chancesBySize(
    sizes.filter((_, i) => together[i] !== 1),
    each,
  );
  let k = 0;
  const chances = together.map((chance) => (chance === 1 ? 1 : one[k++]!));
  const used = certain + each * replicates;
  const says =
    used < n && !all ? [`${replicates} draws of ${each} use ${used} of ${n} openings.`] : [];
  return { ok: true, chances, openings: used, says };
}
