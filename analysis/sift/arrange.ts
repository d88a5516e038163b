/**
 * Order of a permutation by a key, stable: equal keys stay as they stood, NaN comes last either way.
 * Radix sort over the bits of the doubles, 16 at a time, and only over those in which the keys differ: a comparator
 * takes ten times as long over a million.
 * @param order ordinals, as they stand
 * @param key by ordinal
 */
export function arranged(order: Int32Array, key: Float64Array, descending: boolean): Int32Array {
  const digits = sortableDigits(key, descending);
  let from: Int32Array = order;
  let to = new Int32Array(order.length);
  for (const digit of digits) {
    if (!differs(digit)) continue;
    countingPass(from, digit, to);
    [from, to] = [to, from === order ? new Int32Array(order.length) : (from as typeof to)];
  }
  return from;
}

/**
 * The keys as four columns of 16 bits, least first, which sort like the numbers: the sign bit flipped, and all bits of
 * negative numbers. Descending turns all of them but those of NaN, which stand above everything.
 */
function sortableDigits(key: Float64Array, descending: boolean): Uint16Array[] {
  const out = Array.from({ length: 4 }, () => new Uint16Array(key.length));
  const one = new Float64Array(1);
  const bits = new Uint16Array(one.buffer);
  for (let b = 0; b < key.length; b++) {
    const value = key[b]!;
    if (Number.isNaN(value)) {
      for (let d = 0; d < 4; d++) out[d]![b] = 0xffff;
      continue;
    }
    // 0 and −0 are one number.
    one[0] = value === 0 ? 0 : value;
    const negative = bits[3]! >= 0x8000;
    const flip = negative === descending ? 0 : 0xffff;
    for (let d = 0; d < 3; d++) out[d]![b] = bits[d]! ^ flip;
    out[3]![b] = bits[3]! ^ (negative ? flip : flip ^ 0x8000);
  }
  return out;
}

function differs(digit: Uint16Array): boolean {
  const first = digit[0];
  for (let b = 1; b < digit.length; b++) if (digit[b] !== first) return true;
  return false;
}

function countingPass(from: Int32Array, digit: Uint16Array, to: Int32Array): void {
  const start = new Uint32Array(65537);
  for (let i = 0; i < from.length; i++) start[digit[from[i]!]! + 1]!++;
  for (let d = 0; d < 65536; d++) start[d + 1]! += start[d]!;
  for (let i = 0; i < from.length; i++) {
    const b = from[i]!;
    to[start[digit[b]!]!++] = b;
  }
}
