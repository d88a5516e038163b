import { postalCountry } from '../place/postal.ts';
import { findRegion } from '../place/regions.ts';
import { textReader } from '../read/cells.ts';
import { boundOf, type ColumnRule, isNumeric, type TextKind } from '../read/schema.ts';
import { guessReading, type Profile, share } from './profile.ts';
import { quantityReader } from './quantity-text.ts';

/** A number that the reader would keep; any angle for coordinates, for it offers to exchange them. */
function plausible(rule: ColumnRule, asOf: number): (value: number) => boolean {
  if (rule.kind === 'degrees') return (value) => Math.abs(value) <= 180;
  const spans = [rule.range, rule.aside].flatMap((range) => (range ? [range] : []));
  return (value) =>
    !Number.isNaN(value) &&
    spans.every(([low, high]) => value >= boundOf(low, asOf) && value <= boundOf(high, asOf));
}

const looksLikeDate = /^\d{1,4}[-/.]\d{1,2}(?:[-/.]\d{1,4})?(?:[ T].*)?$/;
/** Spreadsheets take the leading zero off a postal code. */
const shortZip = /^\d{3,4}$/;

function readable(
  rule: ColumnRule,
  unit: string | null,
  decimalComma: boolean,
): (text: string) => boolean {
  const reading = guessReading(decimalComma);
  if (isNumeric(rule)) {
    const read = quantityReader(rule, unit, reading);
    const keeps = plausible(rule, reading.asOf);
    return (text) => keeps(read(text));
  }
  if (rule.name === 'postal_code') {
    return (text) => postalCountry(text) !== null || shortZip.test(text);
  }
  if (rule.name === 'region') return (text) => findRegion(text) !== null;
  const read = textReader(rule as ColumnRule & { kind: TextKind }, reading);
  if (rule.kind === 'date') return (text) => read(text) !== null || looksLikeDate.test(text);
  return (text) => read(text) !== null;
}

/** Share of the values that the reader would understand as this column in this unit; null where there are none. */
export const readableShare = (
  profile: Profile,
  rule: ColumnRule,
  unit: string | null,
  decimalComma: boolean,
): number | null =>
  profile.values.length === 0 ? null : share(profile.values, readable(rule, unit, decimalComma));

/**
 * What is left of the confidence in a name when that share of the values can be read, by judgement. Numbers that are none
 * speak against the name; words not known here are mapped by hand once; texts can be anything.
 */
export function trust(rule: ColumnRule, read: number | null): number {
  if (read === null) return 0.95;
  if (isNumeric(rule)) return read < 0.5 ? read : 0.5 + 0.5 * read;
  return 0.55 + 0.45 * read;
}

/** Identifiers of buildings mostly differ. Judgement. */
export const trustInId = ({ values, distinct }: Profile): number =>
  values.length === 0 ? 0.95 : 0.6 + (0.4 * distinct.size) / values.length;
