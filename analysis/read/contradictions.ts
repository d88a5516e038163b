import type { NumberColumn, TextColumn } from '../columns.ts';
import type { RowInHand } from './row.ts';
import { type ColumnRule, isNumeric } from './schema.ts';
import { type Complaint, quote } from './sentences.ts';
import type { Store } from './store.ts';

/**
 * A row that speaks of a building already read fills what the earlier row left blank; where both speak and differ the
 * earlier stands, and the loser is said. `into` is the place of the earlier row.
 */
export function contradictions(
  rules: readonly ColumnRule[],
  store: Store,
  hand: RowInHand,
  into: number,
): Complaint[] {
  const earlier = (store.columns[rules.length] as NumberColumn)[into]!;
  return rules.flatMap((rule, index) => {
    if (rule.derived || rule.identifier || hand.raw[index] === '') return [];
    const stands = isNumeric(rule) ? numberStands : textStands;
    const standing = stands(store, index, hand, into);
    if (standing === null) return [];
    const value = hand.raw[index]!;
    const says = `${rule.name} ${quote(value)} contradicts row ${earlier}, which says ${quote(`${standing}`)}; row ${earlier} stands. Correct the one that is wrong.`;
    return [{ column: rule.name, value, code: 'contradiction', says }];
  });
}

function numberStands(store: Store, index: number, hand: RowInHand, into: number): number | null {
  const column = store.columns[index] as NumberColumn;
  const value = hand.number[index]!;
  const before = column[into]!;
  if (Number.isNaN(value) || before === value) return null;
  if (!Number.isNaN(before)) return before;
  column[into] = value;
  return null;
}

function textStands(store: Store, index: number, hand: RowInHand, into: number): string | null {
  const column = store.columns[index] as TextColumn;
  const value = hand.text[index] ?? null;
  const before = column[into] ?? null;
  if (value === null || before === value) return null;
  if (before !== null) return before;
  column[into] = value;
  return null;
}
