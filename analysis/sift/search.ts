import { numbers } from '../columns.ts';
import type { Engine } from '../engine/port.ts';
import type { Held } from './held.ts';
import { kept } from './kept.ts';
import type { Mask } from './mask.ts';

const searchText = `SELECT b FROM building
  WHERE contains(strip_accents(lower(concat_ws(' ', building_id, name, address, city))), strip_accents(lower(?)))`;

/** Buildings with these words in id, name, address or city, ignoring case and accents. */
async function found(engine: Engine, n: number, words: string): Promise<Mask> {
  const mask = new Uint8Array(n);
  const table = await engine.query(searchText, [words]);
  for (const b of numbers(table, 'b')) mask[b] = 1;
  return mask;
}

export type Search = (words: string) => Promise<Mask>;

/** Searches one portfolio; the words last searched for are asked of the engine once, however many views they filter. */
export function searcher(engine: Engine, { n }: Pick<Held, 'n'>): Search {
  const last = new Map<string, Promise<Mask>>();
  return (words) => {
    if (!last.has(words)) last.clear();
    return kept(last, words, () => found(engine, n, words));
  };
}
