import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../analysis/engine/port.ts';
import { type LiveRanking, prepareLive, rerank } from '../../analysis/live/live.ts';
import type { Weights } from '../../analysis/session-types.ts';
import { defaultSettings } from '../../analysis/settings.ts';
import { scoredDemo } from '../session/open.ts';
import { type Found, found, scoredWith, weighted } from './scored.ts';

let engine: Engine;
let live: LiveRanking;
let first: Found;
beforeAll(async () => {
  engine = await scoredDemo(2000);
  first = await found(engine);
  live = await prepareLive(engine, defaultSettings.constants);
});

const weights = (load: number, deficiency: number, susceptibility: number): Weights => ({
  load,
  deficiency,
  susceptibility,
});

/** Index, tier and order equal those of a scoring; among a leak and an index alike the order is the first scoring's. */
function expectScored(asked: Weights, under: LiveRanking, by: Found, before: Found): void {
  const { index, tier, order } = rerank(under, asked);
  expect(index).toEqual(by.index);
  expect(tier).toEqual(Uint8Array.from(by.tier));
  const rank = (b: number) => (Number.isNaN(before.rank[b]!) ? b + 1e9 : before.rank[b]!);
  const missing = (b: number) => (Number.isNaN(by.index[b]!) ? -1 : by.index[b]!);
  const ranked = (b: number) => (by.tier[b]! < 4 ? 1 : 0);
  const expected = Array.from(by.index.keys()).sort(
    (a, b) =>
      ranked(b) - ranked(a) ||
      by.leak[b]! * ranked(b) - by.leak[a]! * ranked(a) ||
      missing(b) - missing(a) ||
      rank(a) - rank(b),
  );
  expect(order).toEqual(Int32Array.from(expected));
}

describe('ranking anew', () => {
  test('under the weights of the scoring gives its index, its tier and its very rank', () => {
    const { index, tier, order } = rerank(live, weights(1, 1, 1));
    expect(index).toEqual(first.index);
    expect(tier).toEqual(Uint8Array.from(first.tier));
    const ranked = order.filter((b) => !Number.isNaN(first.rank[b]!));
    expect(ranked.map((b) => first.rank[b]!)).toEqual(ranked.map((_, i) => i + 1));
    expect(order.subarray(0, ranked.length)).toEqual(ranked);
    expect(new Set(order).size).toBe(first.index.length);
  });

  test.each([
    weights(1, 0, 1),
    weights(1, 1.7, 0.5),
    weights(1, 3, 3),
    weights(0, 1, 1),
    weights(0, 0, 1),
    weights(0.5, 1, 1),
    weights(0.5, 0, 0),
    weights(1.7, 1, 1),
    weights(1.7, 0.5, 3),
    weights(3, 1, 1),
    weights(3, 0, 0),
    weights(0.05, 0, 0.5),
    weights(1, 1, 1),
  ])('under %o gives index and tier of a scoring for every building', async (asked) => {
    expectScored(asked, live, await scoredWith(engine, weighted(asked)), first);
  });

  test('does so under any weights, whatever was asked before', async () => {
    const weight = fc.integer({ min: 0, max: 60 }).map((n) => n / 20);
    const triple = fc.tuple(weight, weight, weight).filter((three) => three.some((x) => x > 0));
    await fc.assert(
      fc.asyncProperty(triple, async (three) => {
        const asked = weights(...three);
        expectScored(asked, live, await scoredWith(engine, weighted(asked)), first);
      }),
      { seed: 20261125, numRuns: 12 },
    );
  });
});
