import { meets, type ReferralRequest } from '../../analysis/exposure/referral.ts';
import { tiers } from '../../analysis/session-types.ts';
import { digits, money, type Value } from '../parts/format.ts';
import type { RankRow } from '../state/rows.ts';

/** What the list asks for, as a noun phrase for files and captions. */
export function criteriaWords(
  { tier, index, tierHigh, value, unknownValue }: ReferralRequest,
  currency: string | null,
): string {
  const one = [
    ...(tier === null ? [] : [`tier at least ${tiers[tier]}`]),
    ...(index === null ? [] : [`index at least ${index}`]),
    ...(tierHigh === null ? [] : [`at least ${tiers[tierHigh]} with all priors leaning high`]),
  ];
  const least = value === null ? '' : `, insured for at least ${money(value, currency)}`;
  const blank = value !== null && unknownValue ? ' or for a value not on record' : '';
  return `${one.join(' or ') || 'nothing asked'}${least}${blank}`;
}

/** Why a building is on the list: which of the criteria it meets, and what it is insured for. */
export function whyWords(why: number, row: RankRow, asked: ReferralRequest): string {
  const parts = [
    ...(why & meets.tier ? [`${row.tier}`] : []),
    ...(why & meets.index
      ? [`index ${digits(Number(row.index), 2)}, at least ${asked.index} asked`]
      : []),
    ...(why & meets.tierHigh ? [`${row.tier_high} with all priors leaning high`] : []),
    valueWords(row.insured_value, row.currency),
  ];
  const said = parts.join('; ');
  return `${said.charAt(0).toUpperCase()}${said.slice(1)}.`;
}

const valueWords = (value: Value, currency: Value): string =>
  typeof value === 'number' ? `insured for ${money(value, currency)}` : 'value not on record';
