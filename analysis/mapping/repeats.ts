import type { Profile } from './profile.ts';

/** Shares from which records are walls of one building, by judgement: of records that repeat one, of facts that agree. */
const leastRepeated = 0.1;
const leastAgreeing = 0.9;

/** Of the records that repeat an earlier identifier: how many, and how many say nothing else than its first record. */
function repeats(ids: Profile, { cells }: Profile): { all: number; same: number } {
  const firsts = new Map<string, string>();
  let all = 0;
  let same = 0;
  ids.cells.forEach((id, i) => {
    if (id === '') return;
    const first = firsts.get(id);
    if (first === undefined) firsts.set(id, cells[i]!);
    else {
      all += 1;
      if (first === cells[i] || cells[i] === '') same += 1;
    }
  });
  return { all, same };
}

/** Whether the records of one building differ in a column. */
export function differsWithin(ids: Profile, profile: Profile): boolean {
  const { all, same } = repeats(ids, profile);
  return same < all;
}

/** Whether records with one identifier are several walls of one building: many repeat it and agree on the building. */
export function rowsOfOneBuilding(ids: Profile, facts: readonly Profile[]): boolean {
  const { all } = repeats(ids, ids);
  if (all < leastRepeated * ids.cells.length || all === 0) return false;
  const same = facts.reduce((sum, fact) => sum + repeats(ids, fact).same, 0);
  return same >= leastAgreeing * all * facts.length;
}

/** Share of the records that repeat an earlier identifier. */
export function shareRepeated({ cells }: Profile): number {
  const filled = cells.filter((cell) => cell !== '');
  return filled.length === 0 ? 0 : 1 - new Set(filled).size / filled.length;
}
