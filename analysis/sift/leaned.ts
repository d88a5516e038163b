import type { Reranked } from '../live/live.ts';
import { indicesOf } from '../rank/cents.ts';
import { type LiveAnswer, tiers } from '../session-types.ts';
import type { Held } from './held.ts';
import { kept } from './kept.ts';

/** The columns held under other weights, and what the page draws of them: its own arrays, for they are handed over. */
export function tried(held: Held, reranked: Reranked): { held: Held; answer: LiveAnswer } {
  return { held: leaned(held, reranked), answer: liveAnswer(reranked) };
}

/** From 1, in the order of the ranking; NaN where not scored. `rank` itself goes to the page. */
function ranksOf({ order, tier }: Reranked): Float64Array {
  const rank = new Float64Array(order.length).fill(Number.NaN);
  for (let i = 0; i < order.length; i++) {
    const b = order[i]!;
    if (tier[b]! < tiers.indexOf('Not scored')) rank[b] = i + 1;
  }
  return rank;
}

function liveAnswer(reranked: Reranked): LiveAnswer {
  const { cents, tier, rank } = reranked;
  const counts = new Uint32Array(tiers.length);
  for (let b = 0; b < tier.length; b++) counts[tier[b]!]!++;
  return {
    cents: cents.slice(),
    tier: tier.slice(),
    rank,
    counts: Object.fromEntries(tiers.map((name, i) => [name, counts[i]!])) as LiveAnswer['counts'],
  };
}

/** Index, tier and rank under other weights, made when they are asked for; all other columns as they were last scored. */
function leaned(held: Held, reranked: Reranked): Held {
  const numbers: Readonly<Record<string, () => Float64Array>> = {
    index: () => indicesOf(reranked.cents),
    tier: () => new Float64Array(reranked.tier),
    rank: () => ranksOf(reranked),
  };
  const byName = new Map<string, Promise<Float64Array>>();
  return {
    ...held,
    ranked: async () => reranked.order,
    number: (name) => {
      const make = numbers[name];
      return make ? kept(byName, name, async () => make()) : held.number(name);
    },
    category: async (name) =>
      name === 'tier'
        ? { codes: new Int32Array(reranked.tier), words: tiers }
        : held.category(name),
  };
}
