import { counted } from '../rank/frame.ts';
import type { Counted } from '../session-types.ts';
import { siftColumn } from './columns.ts';
import type { Held } from './held.ts';

/** What a column may be filtered by: its words with their buildings, or the range of its numbers. */
export type Facet =
  | { readonly kind: 'category'; readonly values: readonly Counted[] }
  /** Null where no building has a number; `none` are the buildings without one. */
  | {
      readonly kind: 'number';
      readonly range: readonly [least: number, most: number] | null;
      readonly none: number;
    };

/** Throws for a column of texts: they are searched, not chosen among. */
export async function facet(held: Held, column: string): Promise<Facet> {
  const { kind } = siftColumn(column);
  if (kind === 'text') throw new Error(`${column} is searched, not chosen among`);
  if (kind === 'category') return { kind, values: counted(await held.category(column)) };
  let [least, most, none] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0];
  for (const value of await held.number(column)) {
    if (Number.isNaN(value)) none++;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return { kind, range: least <= most ? [least, most] : null, none };
}
