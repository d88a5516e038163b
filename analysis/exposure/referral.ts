import { arranged } from '../sift/arrange.ts';
import { published, type SumTable, tally } from './sums.ts';
import type { ExposureColumns } from './types.ts';

/**
 * What an underwriter sends on: buildings that meet at least one of the first three, and are insured for enough. Null
 * asks nothing. Tiers are places in `tiers`, 0-3: at least *First look*, *Next look*, …
 */
export interface ReferralRequest {
  readonly tier: number | null;
  readonly index: number | null;
  /** Tier with all priors leaning high. */
  readonly tierHigh: number | null;
  /** Least insured value in the currency asked for. */
  readonly value: number | null;
  /** List lines without a value on record as well, although they cannot be held against the least value. */
  readonly unknownValue: boolean;
}

/** Which of the three a building meets, as bits of `why`. */
export const meets = { tier: 1, index: 2, tierHigh: 4 } as const;

export interface Referral {
  /** By tier, then value in the currency asked for, greatest first and lines without one last; then by building_id. */
  readonly ordinals: Int32Array;
  readonly why: Uint8Array;
  /** Sums over the listed lines: one group. */
  readonly sums: SumTable;
  /** Lines that meet one of the three and are not listed: no value on record, a value in another currency. */
  readonly valueUnknown: number;
  readonly valuedElsewhere: number;
  /** Lines shown that could be held against none of the three. */
  readonly notScored: number;
}

export function referralOf(
  columns: ExposureColumns,
  shown: Int32Array,
  request: ReferralRequest,
  currency: number,
): Referral {
  const why = whyOf(columns, shown, request);
  const met = shown.filter((_, i) => why[i]! > 0);
  const standing = met.map((b) => standingOf(columns, b, request, currency));
  const listed = met.filter((_, i) => standing[i] === listedAs.listed);
  const whyBy = new Uint8Array(columns.n);
  for (let i = 0; i < shown.length; i++) whyBy[shown[i]!] = why[i]!;
  const ordinals = sorted(columns, listed, currency);
  return {
    ordinals,
    why: Uint8Array.from(ordinals, (b) => whyBy[b]!),
    sums: published(tally(columns, ordinals, new Int32Array(ordinals.length), 1, currency)),
    valueUnknown: counted(standing, listedAs.valueUnknown),
    valuedElsewhere: counted(standing, listedAs.valuedElsewhere),
    notScored: counted(
      shown.map((b) => columns.tier[b]!),
      4,
    ),
  };
}

function whyOf(
  { tier, tierHigh, index }: ExposureColumns,
  shown: Int32Array,
  asked: ReferralRequest,
): Uint8Array {
  const [least, leastHigh] = [asked.tier ?? -1, asked.tierHigh ?? -1];
  const leastIndex = asked.index ?? Number.POSITIVE_INFINITY;
  const why = new Uint8Array(shown.length);
  for (let i = 0; i < why.length; i++) {
    const b = shown[i]!;
    why[i] =
      (tier[b]! <= least ? meets.tier : 0) +
      (index[b]! >= leastIndex ? meets.index : 0) +
      (tierHigh[b]! <= leastHigh ? meets.tierHigh : 0);
  }
  return why;
}

const listedAs = { listed: 0, valueTooLow: 1, valueUnknown: 2, valuedElsewhere: 3 } as const;

function standingOf(
  { insuredValue, currency: { codes } }: ExposureColumns,
  b: number,
  asked: ReferralRequest,
  currency: number,
): number {
  const value = insuredValue[b]!;
  if (asked.value === null) return listedAs.listed;
  if (Number.isNaN(value)) return asked.unknownValue ? listedAs.listed : listedAs.valueUnknown;
  if (codes[b] !== currency) return listedAs.valuedElsewhere;
  return value >= asked.value ? listedAs.listed : listedAs.valueTooLow;
}

const counted = (values: ArrayLike<number>, wanted: number): number => {
  let n = 0;
  for (let i = 0; i < values.length; i++) if (values[i] === wanted) n++;
  return n;
};

function sorted(
  { insuredValue, tier, currency: { codes } }: ExposureColumns,
  listed: Int32Array,
  currency: number,
): Int32Array {
  const byId = Int32Array.from(listed).sort();
  const value = insuredValue.map((amount, b) => (codes[b] === currency ? amount : Number.NaN));
  return arranged(arranged(byId, value, true), Float64Array.from(tier), false);
}
