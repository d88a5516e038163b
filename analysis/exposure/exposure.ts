import { tiers } from '../session-types.ts';
import { clustersOf } from './clusters.ts';
import { curveOf } from './curve.ts';
import { crossingOf, currencyTotals, pivotOf } from './pivot.ts';
import { referralOf } from './referral.ts';
import type { ExposureColumns, ExposureRequest, ExposureView } from './types.ts';

/**
 * Where a portfolio's walls, areas and insured values lie: a pivot, a threshold curve, clusters and referrals, all over the
 * same lines. Values are of one currency at a time and are never added to those of another.
 * @param shown ordinals of the lines that pass the filters, each once
 */
export function exposureOf(
  columns: ExposureColumns,
  shown: Int32Array,
  request: ExposureRequest,
): ExposureView {
  const totals = currencyTotals(columns, shown);
  const currency =
    request.currency === undefined ? (totals.currencies[0] ?? null) : request.currency;
  // A currency of no line has no code of its own; −1 is that of no record.
  const code = currency === null ? -1 : codeOf(columns, currency);
  const { region, material, currency: written } = columns;
  return {
    lines: shown.length,
    byTier: byTier(columns, shown),
    currency,
    totals,
    words: { region: region.words, material: material.words, currency: written.words },
    pivot: pivotOf(columns, shown, request, code),
    curve: curveOf(columns, shown, code),
    clusters: clustersOf(columns, shown, request.radiusKm, code),
    referral: referralOf(columns, shown, request.referral, code),
    ...(request.crossing && { crossing: crossingOf(columns, shown, request.crossing) }),
  };
}

function codeOf({ currency: { words } }: ExposureColumns, currency: string): number {
  const code = words.indexOf(currency);
  return code < 0 ? words.length : code;
}

function byTier({ tier }: ExposureColumns, shown: Int32Array): number[] {
  const counts = tiers.map(() => 0);
  for (const b of shown) counts[tier[b]!]!++;
  return counts;
}
