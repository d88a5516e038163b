import { type Tier, tiers } from '../../analysis/session-types.ts';
import type { BarsTally } from '../../analysis/sift/tally-bars.ts';
import { perTier, sum } from '../../analysis/sift/tally-codes.ts';
import { amongOf, type Filters } from '../state/page-state.ts';
import { foremost } from './foremost.ts';

export interface Segment {
  readonly tier: Tier;
  readonly kept: number;
  /** Width in shares of the longest bar, 0-1. */
  readonly share: number;
  readonly chosen: boolean;
}

export interface BarRow {
  /** null: no record. */
  readonly word: string | null;
  readonly kept: number;
  readonly whole: number;
  readonly chosen: boolean;
  /** Tiers without a building are left out. */
  readonly segments: readonly Segment[];
  /** Length of the outline: the row's part of the whole portfolio, at the same total. */
  readonly outline: number;
}

export interface BarsShape {
  readonly rows: readonly BarRow[];
  readonly rest: { readonly rows: number; readonly kept: number };
}

const share = (part: number): number => Math.round(part * 1e4) / 1e4;

/** Regions down, each a bar of its tiers. */
export function barsShape(tally: BarsTally, filters: Filters, room: number): BarsShape {
  const regions = amongOf(filters, 'region');
  const tierSet = amongOf(filters, 'tier');
  const { shown, left } = foremost(tally.words, regions, room);
  const passing = tally.words.map((_, row) => sum(tiersOf(tally, row)));
  const ratio = sum(passing) / Math.max(1, sum(tally.whole));
  const longest = Math.max(
    1,
    ...shown.map((row) => Math.max(passing[row]!, tally.whole[row]! * ratio)),
  );
  const rows = shown.map((row) => {
    const word = tally.words[row]!;
    const chosen = regions.includes(word);
    const inRegion = chosen || regions.length === 0;
    return {
      word,
      kept: passing[row]!,
      whole: tally.whole[row]!,
      chosen,
      outline: share((tally.whole[row]! * ratio) / longest),
      segments: tiers
        .map((tier, t) => segmentOf(tier, tiersOf(tally, row)[t]!, longest))
        .filter(({ kept }) => kept > 0)
        .map((segment) => ({
          ...segment,
          chosen: inRegion && (tierSet.length === 0 || tierSet.includes(segment.tier)),
        })),
    };
  });
  return { rows, rest: { rows: left.length, kept: sum(left.map((row) => passing[row]!)) } };
}

const segmentOf = (tier: Tier, kept: number, longest: number) => ({
  tier,
  kept,
  share: share(kept / longest),
});

const tiersOf = ({ kept }: BarsTally, row: number): Uint32Array =>
  kept.subarray(row * perTier, (row + 1) * perTier);
