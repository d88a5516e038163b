import type { Firsts } from '../read/buildings.ts';

/** 128 bits of a text. */
type Digest = [number, number, number, number];

const multipliers = [0x9e3779b1, 0x85ebca77, 0xc2b2ae3d, 0x27d4eb2f] as const;

const rotated = (x: number, by: number): number => (x << by) | (x >>> (32 - by));

/** The last step of MurmurHash3 (Appleby, public domain): every bit of x reaches every bit of the outcome. */
function mixed(x: number): number {
  let h = x;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}

/** Four lanes, each with a multiplier and a turn of its own. */
function digestInto(out: Digest, text: string): void {
  let [a, b, c, d] = [text.length, 0x165667b1, 0x5bd1e995, 0x38b34ae5];
  for (let i = 0; i < text.length; i += 1) {
    const unit = text.charCodeAt(i);
    a = Math.imul(rotated(a ^ unit, 13), multipliers[0]);
    b = Math.imul(rotated(b ^ unit, 15), multipliers[1]);
    c = Math.imul(rotated(c ^ unit, 17), multipliers[2]);
    d = Math.imul(rotated(d ^ unit, 19), multipliers[3]);
  }
  out[0] = mixed(a);
  out[1] = mixed(b ^ a);
  out[2] = mixed(c ^ b);
  out[3] = mixed(d ^ c);
}

/** Identifiers of accepted buildings, in the order of their ordinals `b`. */
export interface Ids extends Firsts {
  /** How many there are. */
  readonly size: () => number;
  /** The ordinal of an identifier; −1 where it is not among them. */
  readonly ordinal: (id: string) => number;
  readonly has: (id: string) => boolean;
}

const firstRoom = 1 << 16;

/**
 * A set of identifiers in about 30 bytes each, where a Map of ten million strings takes gigabytes. Identifiers are told apart by
 * 128 bits: among ten million the chance that any two of them share these is about 1e-25, so that equal bits are taken for
 * equal identifiers.
 */
export function newIds(): Ids {
  let n = 0;
  let digests = new Int32Array(4 * firstRoom);
  let rows = new Uint32Array(firstRoom);
  let slots = new Int32Array(2 * firstRoom).fill(-1);
  const key: Digest = [0, 0, 0, 0];
  const last = { id: null as string | null, b: -1 };

  /** The slot of the key, or the free one where it would go. */
  const slotOf = ([k0, k1, k2, k3]: Digest): number => {
    const mask = slots.length - 1;
    let slot = k0 & mask;
    for (let b = slots[slot]!; b >= 0; b = slots[slot]!) {
      const at = 4 * b;
      const same =
        digests[at] === k0 &&
        digests[at + 1] === k1 &&
        digests[at + 2] === k2 &&
        digests[at + 3] === k3;
      if (same) return slot;
      slot = (slot + 1) & mask;
    }
    return slot;
  };
  const grow = (): void => {
    const more = new Int32Array(2 * digests.length);
    more.set(digests);
    digests = more;
    const moreRows = new Uint32Array(2 * rows.length);
    moreRows.set(rows);
    rows = moreRows;
    slots = new Int32Array(2 * slots.length).fill(-1);
    for (let b = 0; b < n; b += 1) {
      const at = 4 * b;
      slots[slotOf([digests[at]!, digests[at + 1]!, digests[at + 2]!, digests[at + 3]!])] = b;
    }
  };
  const ordinal = (id: string): number => {
    // The walls of a building mostly follow one another.
    if (id === last.id) return last.b;
    digestInto(key, id);
    last.b = slots[slotOf(key)]!;
    last.id = id;
    return last.b;
  };
  return {
    size: () => n,
    ordinal,
    has: (id) => ordinal(id) >= 0,
    get: (id) => {
      const b = ordinal(id);
      return b < 0 ? undefined : { row: rows[b]!, place: b };
    },
    set: (id, { row }) => {
      if (n === rows.length) grow();
      digestInto(key, id);
      slots[slotOf(key)] = n;
      digests.set(key, 4 * n);
      rows[n] = row;
      n += 1;
      last.id = null;
    },
  };
}
