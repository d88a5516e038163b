import type { Band } from '../../analysis/bands.ts';
import type { Condition } from '../../analysis/session-types.ts';
import { toggled } from '../state/changes.ts';
import { amongOf, type Filters } from '../state/page-state.ts';
import type { Span } from './brush.ts';

const binsOf = (edges: ArrayLike<number>): number => edges.length - 1;

/** Where a value lies among equal bins. */
function placeOf(edges: ArrayLike<number>, value: number): number {
  const n = binsOf(edges);
  const place = ((value - edges[0]!) / (edges[n]! - edges[0]!)) * n;
  return Math.max(0, Math.min(n, Math.round(place * 1e6) / 1e6));
}

/** What a condition covers of an axis, also where its ends lie within bins; null: all of it. */
export function spanOf(edges: ArrayLike<number>, range: Band | null): Span | null {
  if (!range || (range.from === undefined && range.below === undefined)) return null;
  return {
    from: range.from === undefined ? 0 : placeOf(edges, range.from),
    to: range.below === undefined ? binsOf(edges) : placeOf(edges, range.below),
  };
}

/** The condition that lets through what a span covers: an end at the end of the axis is open. */
export function conditionOf(edges: ArrayLike<number>, span: Span | null): Condition | null {
  if (!span || (span.from <= 0 && span.to >= binsOf(edges))) return null;
  return {
    ...(span.from > 0 && { from: edges[Math.round(span.from)]! }),
    ...(span.to < binsOf(edges) && { below: edges[Math.round(span.to)]! }),
  };
}

/** The condition on a column with one word more, or one less where it was among them; null where none is left. */
export function withWord(filters: Filters, column: string, word: string | null): Condition | null {
  const among = toggled(amongOf(filters, column), word);
  return among.length > 0 ? { among } : null;
}

/** Whether two conditions ask the same. */
export function sameCondition(a: Condition | null | undefined, b: Condition | null): boolean {
  if (!a || !b) return !a && !b;
  if ('among' in a !== 'among' in b) return false;
  if ('among' in a && 'among' in b)
    return a.among.length === b.among.length && a.among.every((word) => b.among.includes(word));
  const [one, other] = [a as Band, b as Band];
  return one.from === other.from && one.below === other.below;
}
