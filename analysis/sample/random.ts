/** Named in every plan: who draws again with it and the seed draws the same units. */
export const generatorName =
  'xoshiro128** 1.1 (Blackman and Vigna 2021), its state two words of SplitMix64';

/** A seeded source of random words. The same seed gives the same words in every engine: whole-number arithmetic only. */
export interface Random {
  /** The next 32 random bits, 0 … 2³² − 1. */
  word(): number;
}

const mask64 = (1n << 64n) - 1n;

/**
 * SplitMix64 (Steele, Lea and Flood, *Fast splittable pseudorandom number generators*, OOPSLA 2014): n words of 64 bits,
 * after `skip` others.
 */
export function splitMix64(seed: bigint, n: number, skip = 0): bigint[] {
  return Array.from({ length: n }, (_, i) => {
    let z = (seed + BigInt(skip + i + 1) * 0x9e3779b97f4a7c15n) & mask64;
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

/**
 * The generator for a whole-number seed: its state is two words of SplitMix64, low halves first. Another stream takes the
 * next two words, so that what is drawn beside a sample never touches it.
 */
export function seeded(seed: number, stream = 0): Random {
  const [x, y] = splitMix64(BigInt.asUintN(64, BigInt(seed)), 2, 2 * stream);
  const low = (z: bigint) => Number(z & 0xffffffffn);
  return xoshiro128([low(x!), low(x! >> 32n), low(y!), low(y! >> 32n)]);
}

/** 0 ≤ u < 1 in steps of 2⁻⁵³, from two words. */
export const unit = (random: Random): number =>
  ((random.word() >>> 5) * 2 ** 26 + (random.word() >>> 6)) / 2 ** 53;

/** A whole number from 0 to n − 1, each with exactly the same chance (words beyond a multiple of n are passed over). */
export function below(random: Random, n: number): number {
  const limit = 2 ** 32 - (2 ** 32 % n);
  let word = random.word();
  while (word >= limit) word = random.word();
  return word % n;
}

/** One step of Fisher and Yates: puts a random one of the members from `k` on to place k, and returns it. */
export function drawAt(random: Random, pool: Int32Array, k: number): number {
  const j = k + below(random, pool.length - k);
  const member = pool[j]!;
  pool[j] = pool[k]!;
  pool[k] = member;
  return member;
}

/** The members in random order. */
export function shuffled(random: Random, members: Int32Array): Int32Array {
  const out = members.slice();
  for (let k = 0; k < out.length; k += 1) drawAt(random, out, k);
  return out;
}
