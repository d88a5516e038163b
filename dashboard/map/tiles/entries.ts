import type { Frame } from '../../../analysis/session-types.ts';
import { tiers } from '../../../analysis/session-types.ts';
import type { PlacedBuildings } from './portfolio.ts';

/** Tier (index into `tiers`, a lower one is heavier) and index in hundredths, by ordinal. */
export type Scores = Pick<Frame, 'tier' | 'cents'>;

/** Scores in the order of the placed entries, so that a tile reads them in a row. */
export interface EntryScores {
  readonly tier: Uint8Array;
  /** Index in hundredths, whole, so that sums are exact in any order. */
  readonly cents: Int16Array;
}

/** Which entries pass the filters: 1 by entry, or null when all do. */
export interface Shown {
  readonly mask: Uint8Array | null;
  readonly n: number;
}

/** What tiles of buildings are cut from. */
export interface Entries {
  readonly placed: PlacedBuildings;
  readonly scores: EntryScores;
  readonly shown: Shown;
}

export function entryScores({ ordinal }: PlacedBuildings, { tier, cents }: Scores): EntryScores {
  const [tierAt, centsAt] = [new Uint8Array(ordinal.length), new Int16Array(ordinal.length)];
  for (let i = 0; i < ordinal.length; i++) {
    const b = ordinal[i]!;
    tierAt[i] = tier[b]!;
    centsAt[i] = cents[b]!;
  }
  return { tier: tierAt, cents: centsAt };
}

/** One pass over the ordinals that pass the filters; those without a place do not count. */
export function shownOf({ ordinal, entryOf }: PlacedBuildings, ordinals: Int32Array | null): Shown {
  if (!ordinals) return { mask: null, n: ordinal.length };
  const mask = new Uint8Array(ordinal.length);
  let n = 0;
  for (let k = 0; k < ordinals.length; k++) {
    const i = entryOf[ordinals[k]!] ?? -1;
    if (i < 0) continue;
    n += 1 - mask[i]!;
    mask[i] = 1;
  }
  return { mask, n };
}

/** Buildings of the portfolio in each tier. */
export function countTiers(tier: Uint8Array): number[] {
  const counts = tiers.map(() => 0);
  for (let b = 0; b < tier.length; b++) counts[tier[b]!]!++;
  return counts;
}
