import { expect, test } from 'vitest';
import {
  below,
  seeded,
  shuffled,
  splitMix64,
  unit,
  xoshiro128,
} from '../../analysis/sample/random.ts';

const words = (random: { word(): number }, n: number) =>
  Array.from({ length: n }, () => random.word());

// github.com/rust-random/rngs, rand_xoshiro/src/xoshiro128starstar.rs, test `reference`, made with the authors' C code.
test('xoshiro128** from state 1, 2, 3, 4 gives the published words', () => {
  expect(words(xoshiro128([1, 2, 3, 4]), 10)).toEqual([
    11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597,
    4258142804,
  ]);
});

// github.com/edorfaus/xoshiro-6502, test-rom/testdata.asm: seed and first words, made with the authors' C code.
test('xoshiro128** agrees with a second set of words from the authors’ own code', () => {
  const state = [0x964d4a0c, 0xd40ab895, 0xad7fdecb, 0x3006f0f0] as const;
  expect(words(xoshiro128(state), 4)).toEqual([0xf1391922, 0x6fe53806, 0xa5be2840, 0xf510ee70]);
});

// rosettacode.org, Pseudo-random numbers/Splitmix64, seed 1234567.
test('SplitMix64 from seed 1234567 gives the published words', () => {
  const published = [
    6457827717110365317n,
    3203168211198807973n,
    9817491932198370423n,
    4593380528125082431n,
    16408922859458223821n,
  ];
  expect(splitMix64(1234567n, 5)).toEqual(published);
  expect(splitMix64(1234567n, 2, 3)).toEqual(published.slice(3));
});

test('another stream of a seed gives other words, the same one the same', () => {
  expect(words(seeded(5), 4)).toEqual(words(seeded(5, 0), 4));
  expect(words(seeded(5), 4)).not.toEqual(words(seeded(5, 1), 4));
});

test('a unit uniform lies in 0 … 1 and has 53 bits', () => {
  const random = seeded(3);
  const drawn = Array.from({ length: 20_000 }, () => unit(random));
  expect(Math.min(...drawn)).toBeGreaterThanOrEqual(0);
  expect(Math.max(...drawn)).toBeLessThan(1);
  expect(drawn.some((u) => u * 2 ** 32 !== Math.floor(u * 2 ** 32))).toBe(true);
  const mean = drawn.reduce((sum, u) => sum + u, 0) / drawn.length;
  // 4 standard errors of a uniform mean: 4 / √(12 · 20,000).
  expect(Math.abs(mean - 0.5)).toBeLessThan(0.0082);
});

test('words beyond the last whole multiple are passed over, so that every number has the same chance', () => {
  const given = [2 ** 32 - 1, 2 ** 32 - 2, 17];
  const random = { word: () => given.shift()! };
  expect(below(random, 2 ** 31 + 1)).toBe(17);
});

test('every order of four comes up alike', () => {
  const random = seeded(8);
  const counts = new Map<string, number>();
  for (let k = 0; k < 24_000; k += 1) {
    const order = shuffled(random, Int32Array.of(0, 1, 2, 3)).join('');
    counts.set(order, (counts.get(order) ?? 0) + 1);
  }
  const chi2 = [...counts.values()].reduce((sum, x) => sum + (x - 1000) ** 2 / 1000, 0);
  expect(counts.size).toBe(24);
  // qchisq(.999, 23) = 49.73 (R).
  expect(chi2).toBeLessThan(49.73);
});
