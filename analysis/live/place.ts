import { noIndex } from '../rank/cents.ts';
import type { LiveRanking } from './live.ts';

/** The index of a wall as alike_index.sql has it, before its rounding; w_mean and ds_mean in millionths. */
const product = (w: number, ds: number): number => 100 * (w / 1e6) * (ds / 1e6);

/** The index in hundredths as exported: rounded to 1e-6 (alike_index.sql), then to 0.01 (tiered.sql). */
const hundredths = (index: number): number => Math.round((Math.round(index * 1e6) / 1e6) * 100);

/**
 * w_mean · ds_mean in whole millionths each is 1e8 times the hundredths. Beyond this distance from a border between two
 * hundredths neither rounding can cross it, and the last bits of a double cannot either.
 */
const nearBorder = 10_000;

/** Hundredths of a product of whole millionths that lies near no border. */
const nearestHundredth = (millionths: number): number => (millionths * 1e-8 + 0.5) | 0;

/** Values of an index in hundredths. */
const indexValues = 10_001;

/** Keys: a leak with an index, a leak without, no leak with an index, not scored. Within them the index falls. */
const leakWithout = indexValues;
const noLeak = indexValues + 1;
const notScored = noLeak + indexValues;

/** Tier of every index in hundredths (tier.sql), without a leak and then with one. */
function tierTable([first, next, watch]: LiveRanking['thresholds']): Uint8Array {
  return Uint8Array.from({ length: 2 * indexValues }, (_, i) => {
    const x = (i % indexValues) / 100;
    if (x >= first) return 0;
    if (i >= indexValues || x >= next) return 1;
    return x >= watch ? 2 : 3;
  });
}

/** Fills index and tier of every building (as in `rerank`), and the key by which the order goes. */
export function place(live: LiveRanking, cents: Int16Array, tier: Uint8Array): void {
  const { loadStart } = live.ground.walls;
  const { leak } = live.standing;
  const { key } = live;
  const { low, high, behind } = live.last;
  const tiers = tierTable(live.thresholds);
  for (let b = 0, p = 0; b < live.n; b++) {
    const to = loadStart[b + 1]!;
    const leaks = leak[b]!;
    if (p === to) {
      cents[b] = noIndex;
      tier[b] = leaks === 1 ? 1 : 4;
      key[b] = leaks === 1 ? leakWithout : notScored;
      continue;
    }
    let least = 0;
    let most = 0;
    for (; p < to; p++) {
      const ds = behind[p]!;
      const down = low[p]! * ds;
      if (down > least) least = down;
      const up = high[p]! * ds;
      if (up > most) most = up;
    }
    let found = nearestHundredth(most + nearBorder);
    if (nearestHundredth(least - nearBorder) !== found) found = settled(live, b);
    cents[b] = found;
    tier[b] = tiers[leaks * indexValues + found]!;
    key[b] = (1 - leaks) * noLeak + 10_000 - found;
  }
}

/** The index of a building in hundredths as the SQL rounds it, with every load that can decide it worked out and kept. */
function settled({ ground, last }: LiveRanking, b: number): number {
  const { low, high, behind } = last;
  const [from, to] = [ground.walls.loadStart[b]!, ground.walls.loadStart[b + 1]!];
  let most = 0;
  for (let p = from; p < to; p++) most = Math.max(most, product(low[p]!, behind[p]!));
  for (let p = from; p < to; p++) {
    if (low[p] !== high[p] && product(high[p]!, behind[p]!) >= most) {
      low[p] = last.exact(p, b);
      high[p] = low[p]!;
    }
    most = Math.max(most, product(low[p]!, behind[p]!));
  }
  return hundredths(most);
}

/** The ordinals of `before` by key; those of one key stay as they were. `rank` gets the rank of every building, 0 for none. */
export function ordered(before: Int32Array, key: Uint16Array, rank: Int32Array): Int32Array {
  const next = new Int32Array(notScored + 2);
  for (let b = 0; b < key.length; b++) next[key[b]! + 1]!++;
  for (let k = 1; k < next.length; k++) next[k]! += next[k - 1]!;
  const order = new Int32Array(before.length);
  for (let i = 0; i < before.length; i++) {
    const b = before[i]!;
    const at = next[key[b]!]!++;
    order[at] = b;
    if (key[b] !== notScored) rank[b] = at + 1;
  }
  return order;
}
