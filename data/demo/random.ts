/** A seeded source of random words. The same seed gives the same words in every engine. */
export interface Random {
  /** The next 32 random bits, 0 … 2³² − 1. */
  word(): number;
}

const mask64 = (1n << 64n) - 1n;

/** SplitMix64 (Steele, Lea and Flood, *Fast splittable pseudorandom number generators*, OOPSLA 2014): n words of 64 bits. */
export function splitMix64(seed: bigint, n: number): bigint[] {
  return Array.from({ length: n }, (_, i) => {
    let z = (seed + BigInt(i + 1) * 0x9e3779b97f4a7c15n) & mask64;
    z = ((z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n) & mask64;
    z = ((z ^ (z >> 27n)) * 0x94d049bb133111ebn) & mask64;
    return z ^ (z >> 31n);
  });
}

const turned = (x: number, k: number): number => (x << k) | (x >>> (32 - k));

/**
 * xoshiro128** 1.1 (Blackman and Vigna, *Scrambled linear pseudorandom number generators*, ACM TOMS 47, 2021) from four
 * 32-bit words of state, not all zero.
 */
export function xoshiro128(state: readonly [number, number, number, number]): Random {
  let [a, b, c, d] = state;
  return {
    word() {
      const result = Math.imul(turned(Math.imul(b, 5), 7), 9) >>> 0;
      const t = b << 9;
      c ^= a;
      d ^= b;
      b ^= c;
      a ^= d;
      c ^= t;
      d = turned(d, 11);
      return result;
    },
  };
}

/** The generator for a whole-number seed: its state is two words of SplitMix64, low halves first. */
export function seeded(seed: number): Random {
  const [x, y] = splitMix64(BigInt.asUintN(64, BigInt(seed)), 2);
  const low = (z: bigint) => Number(z & 0xffffffffn);
  return xoshiro128([low(x!), low(x! >> 32n), low(y!), low(y! >> 32n)]);
}

/** 0 ≤ u < 1 in steps of 2⁻³². */
const unit = (random: Random): number => random.word() / 2 ** 32;

/** Whole number from `from` to `to`, both included. */
export const between = (random: Random, from: number, to: number): number =>
  from + Math.floor(unit(random) * (to - from + 1));

/** True in `pct` of a hundred draws. */
export const chance = (random: Random, pct: number): boolean => unit(random) * 100 < pct;

export const pick = <T>(random: Random, list: readonly T[]): T =>
  list[Math.floor(unit(random) * list.length)]!;

/** About normal with mean 0 and standard deviation 1: the sum of twelve uniforms less six, arithmetic only. */
export function bell(random: Random): number {
  let sum = -6;
  for (let i = 0; i < 12; i++) sum += unit(random);
  return sum;
}

/** Values with weights, summed up for drawing. */
export interface Weighted<T> {
  readonly values: readonly T[];
  readonly cumulative: readonly number[];
}

export function weighted<T>(rows: readonly T[], weight: (row: T) => number): Weighted<T> {
  const values = rows.filter((row) => weight(row) > 0);
  let sum = 0;
  return { values, cumulative: values.map((row) => (sum += weight(row))) };
}

/** A value, drawn in proportion to its weight. */
export function draw<T>(random: Random, { values, cumulative }: Weighted<T>): T {
  const at = unit(random) * cumulative.at(-1)!;
  let i = 0;
  while (at >= cumulative[i]!) i += 1;
  return values[i]!;
}

/** The list in random order (Fisher and Yates). */
export function shuffled<T>(random: Random, list: readonly T[]): T[] {
  const out = [...list];
  for (let i = out.length - 1; i > 0; i--) {
    const j = between(random, 0, i);
    [out[i], out[j]] = [out[j]!, out[i]!];
  }
  return out;
}
