import type { Condition, RankQuery } from '../session-types.ts';
import { siftColumn } from './columns.ts';
import type { Category, Held } from './held.ts';

/** 1 for each ordinal that passes. */
export type Mask = Uint8Array;

/**
 * Ordinals that pass all conditions but those on the columns left out, and the words searched for.
 * Null where nothing is asked: every building passes.
 */
export async function maskOf(
  held: Held,
  search: (words: string) => Promise<Mask>,
  { on = {}, search: typed = '' }: Pick<RankQuery, 'on' | 'search'>,
  but: readonly string[] = [],
): Promise<Mask | null> {
  const asked = Object.entries(on).filter(([name]) => !but.includes(name));
  const words = typed.trim();
  if (asked.length === 0 && words === '') return null;
  const mask = words ? (await search(words)).slice() : new Uint8Array(held.n).fill(1);
  for (const [name, condition] of asked) await restrict(mask, held, name, condition);
  return mask;
}

async function restrict(mask: Mask, held: Held, name: string, condition: Condition): Promise<void> {
  if (!('among' in condition)) return keepBetween(mask, await held.number(name), condition);
  const { kind } = siftColumn(name);
  if (kind === 'category') return keepAmong(mask, await held.category(name), condition.among);
  if (condition.among.some((word) => word !== null)) {
    throw new Error(`${name} has no words to choose among`);
  }
  keepWithout(mask, await held.number(name));
}

function keepAmong(
  mask: Mask,
  { codes, words }: Category,
  among: readonly (string | null)[],
): void {
  // Place 0 is no record, so that a code serves as a place.
  const passes = new Uint8Array(words.length + 1);
  for (const word of among) {
    const at = word === null ? 0 : words.indexOf(word) + 1;
    if (word === null || at > 0) passes[at] = 1;
  }
  for (let b = 0; b < mask.length; b++) mask[b]! &= passes[codes[b]! + 1]!;
}

function keepWithout(mask: Mask, values: Float64Array): void {
  for (let b = 0; b < mask.length; b++) if (!Number.isNaN(values[b]!)) mask[b] = 0;
}

/** A value that is not on record lies in no range. */
function keepBetween(
  mask: Mask,
  values: Float64Array,
  {
    from = Number.NEGATIVE_INFINITY,
    below = Number.POSITIVE_INFINITY,
  }: { from?: number; below?: number },
): void {
  for (let b = 0; b < mask.length; b++) {
    const value = values[b]!;
    if (!(value >= from && value < below)) mask[b] = 0;
  }
}
