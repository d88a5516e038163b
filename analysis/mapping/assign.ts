import type { Candidate } from './candidates.ts';

/** Confidence below which nothing is offered: the column is kept as it is. Judgement. */
const least = 0.4;

const order = (a: Candidate, b: Candidate): number =>
  Math.round(1e6 * (b.confidence - a.confidence)) ||
  a.rank - b.rank ||
  (a.group?.order ?? -1) - (b.group?.order ?? -1) ||
  (a.profile.key < b.profile.key ? -1 : Number(a.profile.key > b.profile.key));

export const wallOf = ({ group }: Candidate): string | null => group?.group.wall ?? null;

const slotOf = (one: Candidate): string => `${one.table}.${one.column}.${wallOf(one) ?? ''}`;

/**
 * Each column of the contract is filled by one column of the file at most, and the other way round: the surest pair
 * first. Greedy, so that an exact heading can never be traded for two likely ones elsewhere and every pair can be told
 * by itself; ties fall by the contract's order, then by what the columns hold, never by where they stand.
 */
export function assigned(candidates: readonly Candidate[]): readonly Candidate[] {
  const positions = new Set<number>();
  const slots = new Set<string>();
  return candidates
    .filter(({ confidence }) => confidence >= least)
    .toSorted(order)
    .filter((one) => {
      const slot = slotOf(one);
      if (positions.has(one.profile.position) || slots.has(slot)) return false;
      positions.add(one.profile.position);
      slots.add(slot);
      return true;
    });
}
