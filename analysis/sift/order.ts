import type { RankBy, RankQuery } from '../session-types.ts';
import { arranged } from './arrange.ts';
import type { Held } from './held.ts';
import { kept } from './kept.ts';
import { type Mask, maskOf } from './mask.ts';
import type { Search } from './search.ts';

type Key = readonly [column: string, descending: boolean];

/** Keys of each ranking, the last one first: sorting is stable, and begins from the rank. */
const keysOf: Readonly<Record<RankBy, readonly Key[]>> = {
  index: [],
  wetting: [['wetting_l_m2', true]],
  high: [['index_high', true]],
  value_at_tier: [
    ['insured_value', true],
    ['tier', false],
  ],
};

/** Building ordinals that match, in order: by the column asked for or the ranking, then by rank, then by building_id. */
export interface Sifter {
  order(query: RankQuery): Promise<Int32Array>;
  mask(query: Pick<RankQuery, 'on' | 'search'>, but?: readonly string[]): Promise<Mask | null>;
}

/** Permutations kept: those between which a reader goes to and fro. */
const keptOrders = 6;

export function sifter(held: Held, search: Search): Sifter {
  const orders = new Map<string, Promise<Int32Array>>();
  const whole = (query: RankQuery): Promise<Int32Array> => {
    const keys = sortKeys(query);
    const name = JSON.stringify(keys);
    const found = kept(orders, name, () => arrangedBy(held, keys));
    // At the young end, where it is kept longest.
    orders.delete(name);
    orders.set(name, found);
    for (const old of [...orders.keys()].slice(0, -keptOrders)) orders.delete(old);
    return found;
  };
  const mask: Sifter['mask'] = (query, but) => maskOf(held, search, query, but);
  return {
    mask,
    order: async (query) => {
      const [order, passes] = await Promise.all([whole(query), mask(query)]);
      return passes ? order.filter((b) => passes[b] === 1) : order.slice();
    },
  };
}

const sortKeys = ({ by, sort }: RankQuery): readonly Key[] =>
  sort ? [[sort.column, sort.descending]] : keysOf[by];

async function arrangedBy(held: Held, keys: readonly Key[]): Promise<Int32Array> {
  let order = await held.ranked();
  for (const [column, descending] of keys) {
    order = arranged(order, await held.number(column), descending);
  }
  return order;
}
