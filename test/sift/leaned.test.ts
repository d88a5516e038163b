import { describe, expect, it } from 'vitest';
import { indexOf, noIndex } from '../../analysis/rank/cents.ts';
import { facet } from '../../analysis/sift/facet.ts';
import type { Category, Held } from '../../analysis/sift/held.ts';
import { tried } from '../../analysis/sift/leaned.ts';

const numbers: Readonly<Record<string, Float64Array>> = {
  index: Float64Array.of(50, 10, Number.NaN),
  rain_mm: Float64Array.of(900, Number.NaN, 300),
};
const categories: Readonly<Record<string, Category>> = {
  tier: { codes: Int32Array.of(0, 2, 4), words: ['First look'] },
  region: { codes: Int32Array.of(1, -1, 1), words: ['AZ', 'OR'] },
};
const held: Held = {
  n: 3,
  number: async (name) => numbers[name]!,
  category: async (name) => categories[name]!,
  ranked: async () => Int32Array.of(0, 1, 2),
  ahead: async () => {},
};
const reranked = {
  cents: Int16Array.of(2000, 4500, noIndex),
  rank: Int32Array.of(2, 1, 0),
  tier: Uint8Array.of(2, 0, 4),
  order: Int32Array.of(1, 0, 2),
};

describe('columns under weights that are tried', () => {
  it('have index, tier and rank anew, and all else as last scored', async () => {
    const columns = tried(held, reranked).held;
    expect([...(await columns.number('index'))]).toEqual([20, 45, Number.NaN]);
    expect([...(await columns.number('rank'))]).toEqual([2, 1, Number.NaN]);
    expect([...(await columns.ranked())]).toEqual([1, 0, 2]);
    expect([...(await columns.category('tier')).codes]).toEqual([2, 0, 4]);
    expect(await columns.number('rain_mm')).toBe(numbers.rain_mm);
  });

  it('leave a building that is not scored without a rank', () => {
    expect([...tried(held, reranked).answer.rank]).toEqual([2, 1, 0]);
  });

  it('are handed to the page as copies: what is kept stays in use', async () => {
    const { held: columns, answer } = tried(held, reranked);
    expect([...answer.cents].map(indexOf)).toEqual([...(await columns.number('index'))]);
    structuredClone(answer, {
      transfer: [answer.cents, answer.tier, answer.rank].map(({ buffer }) => buffer),
    });
    expect(reranked.cents).toHaveLength(3);
    expect([...(await columns.number('rank'))]).toEqual([2, 1, Number.NaN]);
    expect([...(await columns.category('tier')).codes]).toEqual([2, 0, 4]);
  });

  it('are counted by tier for the page, *Not scored* included', () => {
    expect(tried(held, reranked).answer.counts).toEqual({
      'First look': 1,
      'Next look': 0,
      'Keep watch': 1,
      'No flag': 0,
      'Not scored': 1,
    });
  });
});

describe('what a column may be filtered by', () => {
  it('are its words that occur, most frequent first, with *no record* where there is any', async () => {
    expect(await facet(held, 'region')).toEqual({
      kind: 'category',
      values: [
        { value: 'OR', n: 2 },
        { value: null, n: 1 },
      ],
    });
  });

  it('is the range of its numbers, with the buildings that have none', async () => {
    expect(await facet(held, 'rain_mm')).toEqual({ kind: 'number', range: [300, 900], none: 1 });
  });

  it('is nothing for texts, which are searched', async () => {
    await expect(facet(held, 'name')).rejects.toThrow('searched');
  });
});
