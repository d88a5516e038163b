import { seeded, unit } from '../../../analysis/sample/random.ts';
import type { Frame } from '../../../analysis/session-types.ts';

export type Columns = Pick<Frame, 'n' | 'longitude' | 'latitude' | 'tier' | 'index'>;

/** Tiers by index, and a share without one: invented, as evenly mixed as a map can meet. */
const tierOf = (index: number): number => [70, 50, 25, 0].findIndex((least) => index >= least);

/** Buildings scattered evenly over the United States' extent. */
export function columnsOf(n: number): Columns {
  const random = drawing(9);
  const [longitude, latitude] = [new Float64Array(n), new Float64Array(n)];
  for (let b = 0; b < n; b++) {
    longitude[b] = -123 + 52 * random();
    latitude[b] = 29 + 20 * random();
  }
  return { n, longitude, latitude, ...scoresOf(n, 1) };
}

function drawing(seed: number): () => number {
  const state = seeded(seed);
  return () => unit(state);
}

/** Scores of the same buildings as another ranking would have them. */
export function scoresOf(n: number, seed: number): Pick<Frame, 'tier' | 'index'> {
  const random = drawing(seed);
  const index = Float64Array.from({ length: n }, () =>
    random() < 0.02 ? Number.NaN : Math.round(1e8 * random() ** 3) / 1e6,
  );
  return { index, tier: Uint8Array.from(index, (i) => (Number.isNaN(i) ? 4 : tierOf(i))) };
}
