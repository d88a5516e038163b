import { type LiveAnswer, tiers } from '../session-types.ts';
import type { Held } from './held.ts';

/** A ranking under other weights, by ordinal; NaN and 4 (*Not scored*) where there is no index. */
export interface Reranked {
  readonly index: Float64Array;
  readonly tier: Uint8Array;
  /** Ordinals in order of rank, those without one last. */
  readonly order: Int32Array;
}

/** From 1, in the order of the ranking; NaN where not scored. */
function ranksOf({ order, tier }: Pick<Reranked, 'order' | 'tier'>): Float64Array {
  const rank = new Float64Array(order.length).fill(Number.NaN);
  for (let i = 0; i < order.length; i++) {
    const b = order[i]!;
    if (tier[b]! < tiers.indexOf('Not scored')) rank[b] = i + 1;
  }
  return rank;
}

/** The columns held under other weights, and what the page draws of them: copies, for they are handed over. */
export function tried(held: Held, reranked: Reranked): { held: Held; answer: LiveAnswer } {
  const rank = ranksOf(reranked);
  return { held: leaned(held, reranked, rank), answer: liveAnswer(reranked, rank) };
}

function liveAnswer({ index, tier }: Reranked, rank: Float64Array): LiveAnswer {
  const counts = tiers.map(() => 0);
  for (const one of tier) counts[one]!++;
  return {
    index: index.slice(),
    tier: tier.slice(),
    rank: rank.slice(),
    counts: Object.fromEntries(tiers.map((name, i) => [name, counts[i]!])) as LiveAnswer['counts'],
  };
}

/** Index, tier and rank under other weights; all other columns as they were last scored. */
function leaned(held: Held, reranked: Reranked, rank: Float64Array): Held {
  const tier = Int32Array.from(reranked.tier);
  const numbers: Readonly<Record<string, Float64Array>> = {
    index: reranked.index,
    tier: Float64Array.from(tier),
    rank,
  };
  return {
    ...held,
    ranked: async () => reranked.order,
    number: async (name) => numbers[name] ?? held.number(name),
    category: async (name) =>
      name === 'tier' ? { codes: tier, words: tiers } : held.category(name),
  };
}
