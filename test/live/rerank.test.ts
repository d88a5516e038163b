import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../analysis/engine/port.ts';
import { type LiveRanking, prepareLive, type Reranked, rerank } from '../../analysis/live/live.ts';
import { indicesOf } from '../../analysis/rank/cents.ts';
import type { Weights } from '../../analysis/session-types.ts';
import { defaultSettings } from '../../analysis/settings.ts';
import type { WindInRain } from '../../analysis/wetting/wind.ts';
import { scoredDemo } from '../session/open.ts';
import {
  type Found,
  found,
  orderOf,
  scoredWhole,
  scoredWith,
  weighted,
  weights,
} from './scored.ts';

interface Ready {
  readonly engine: Engine;
  readonly live: LiveRanking;
  /** What the scoring found from which `live` was prepared. */
  readonly first: Found;
}

/** As the scoring prints it. */
const indexOf = ({ cents }: Reranked): Float64Array => indicesOf(cents);

function expectScored({ live, first }: Ready, asked: Weights, by: Found): void {
  const found = rerank(live, asked);
  const { tier, order, rank } = found;
  expect(indexOf(found)).toEqual(by.index);
  expect(tier).toEqual(Uint8Array.from(by.tier));
  expect(order).toEqual(orderOf(by, first));
  expect([...order].map((b) => rank[b])).toEqual(
    [...order].map((b, i) => (tier[b] === 4 ? 0 : i + 1)),
  );
}

let demo: Ready;
beforeAll(async () => {
  const engine = await scoredDemo(2000);
  const first = await found(engine);
  demo = { engine, first, live: await prepareLive(engine, defaultSettings.constants) };
});

describe('ranking anew', () => {
  test('under the weights of the scoring gives its index, its tier and its very rank', () => {
    const { live, first } = demo;
    const again = rerank(live, weights(1, 1, 1));
    const { tier, order } = again;
    expect(indexOf(again)).toEqual(first.index);
    expect(tier).toEqual(Uint8Array.from(first.tier));
    const ranked = order.filter((b) => !Number.isNaN(first.rank[b]!));
    expect(order.subarray(0, ranked.length)).toEqual(ranked);
    expect(ranked.map((b) => first.rank[b]!)).toEqual(ranked.map((_, i) => i + 1));
    expect(new Set(order).size).toBe(live.n);
  });

  test('moves buildings', () => {
    const order = (asked: Weights) => rerank(demo.live, asked).order;
    expect(order(weights(3, 1, 1))).not.toEqual(order(weights(1, 1, 1)));
    expect(order(weights(1, 0, 1))).not.toEqual(order(weights(1, 1, 1)));
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
  ])('under $load, $deficiency, $susceptibility gives what a scoring prints', async (asked) => {
    expectScored(demo, asked, await scoredWith(demo.engine, weighted(asked)));
  });

  test('does so where every step of the method runs', async () => {
    const asked = weights(1.35, 0.8, 1.6);
    expectScored(demo, asked, await scoredWhole(demo.engine, weighted(asked)));
  });

  test('does so under any weights, whatever was asked before', async () => {
    const weight = fc.integer({ min: 0, max: 60 }).map((n) => n / 20);
    const triple = fc.tuple(weight, weight, weight).filter((three) => three.some((x) => x > 0));
    await fc.assert(
      fc.asyncProperty(triple, async (three) => {
        const asked = weights(...three);
        expectScored(demo, asked, await scoredWith(demo.engine, weighted(asked)));
      }),
      { seed: 20261125, numRuns: 8 },
    );
  }, 120_000);

  test('does so from a scoring under weights of one’s own', async () => {
    const own = weighted(weights(2.2, 0.4, 1));
    const first = await scoredWhole(demo.engine, own);
    const ready = { ...demo, first, live: await prepareLive(demo.engine, own.constants) };
    for (const asked of [weights(2.2, 1, 1), weights(1, 1, 1), weights(2.2, 0.4, 3)]) {
      expectScored(ready, asked, await scoredWith(demo.engine, weighted(asked)));
    }
  }, 60_000);
});

/** Rain from the south with a lee in which hardly any falls on a wall, and a half from which none does. */
const wind: WindInRain = {
  record: 'invented',
  wind: 4.3,
  kappa: Float64Array.from({ length: 360 }, (_, azimuth) => {
    const along = -Math.cos((azimuth * Math.PI) / 180);
    return along > 0 ? Math.round(along * 1e6) / 1e6 : azimuth % 3 === 0 ? 1e-6 : 0;
  }),
};

const rain = (...nodes: (number | 'NULL')[]): string =>
  `rain_mm = ${nodes[2]}, ${nodes.map((mm, i) => `rain_${i + 1} = ${mm}`).join(', ')}`;

/** No rain in a year, next to none, nodes that follow no median, a leak without rain on record, a leak. */
const odd = [
  rain(0, 0, 0, 0, 0),
  rain(0.011, 0.015, 0.02, 0.025, 0.031),
  'rain_4 = rain_4 + 12.5, rain_5 = rain_5 + 800',
  `${rain('NULL', 'NULL', 'NULL', 'NULL', 'NULL')}, leak_history = 'reported'`,
  `leak_history = 'reported'`,
];

/** Changes a part of the buildings, each in one of these ways. */
async function makeOdd(engine: Engine): Promise<void> {
  await engine.query('CREATE TABLE odd AS SELECT * FROM building');
  await engine.query('DROP VIEW building');
  for (const [i, changes] of odd.entries()) {
    await engine.query(`UPDATE odd SET ${changes} WHERE b % 23 = ${i}`);
  }
  await engine.query('CREATE VIEW building AS SELECT * FROM odd');
}

test('walls that no rain meets, odd rain and leaks without an index are ranked as a scoring ranks them', async () => {
  const engine = await scoredDemo(400);
  await makeOdd(engine);
  const first = await scoredWhole(engine, defaultSettings, wind);
  const leakAlone = first.tier.filter((tier, b) => tier === 1 && Number.isNaN(first.index[b]!));
  expect(leakAlone.length).toBeGreaterThan(0);
  const ready = { engine, first, live: await prepareLive(engine, defaultSettings.constants) };
  for (const asked of [
    weights(1, 1, 1),
    weights(0.05, 1, 0),
    weights(0, 1, 2),
    weights(2.5, 1, 1),
  ]) {
    expectScored(ready, asked, await scoredWith(engine, weighted(asked), wind));
  }
});
