import { boundsOf } from '../../../analysis/place/bounds.ts';
import { noIndex } from '../../../analysis/rank/cents.ts';
import { seeded, unit } from '../../../analysis/sample/random.ts';
import type { Frame } from '../../../analysis/session-types.ts';

export type Columns = Pick<Frame, 'n' | 'longitude' | 'latitude' | 'bounds' | 'tier' | 'cents'>;

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
  return { n, longitude, latitude, bounds: boundsOf(longitude, latitude), ...scoresOf(n, 1) };
}

function drawing(seed: number): () => number {
  const state = seeded(seed);
  return () => unit(state);
}

/** Scores of the same buildings as another ranking would have them. */
export function scoresOf(n: number, seed: number): Pick<Frame, 'tier' | 'cents'> {
  const random = drawing(seed);
  const cents = Int16Array.from({ length: n }, () =>
    random() < 0.02 ? noIndex : Math.round(1e4 * random() ** 3),
  );
  return { cents, tier: Uint8Array.from(cents, (c) => (c === noIndex ? 4 : tierOf(c / 100))) };
}
