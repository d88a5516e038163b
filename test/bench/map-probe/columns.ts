import { seeded, unit } from '../../../analysis/sample/random.ts';
import type { Frame } from '../../../analysis/session-types.ts';

export type Columns = Pick<Frame, 'n' | 'longitude' | 'latitude' | 'tier' | 'index'>;
export type Spread = 'even' | 'towns';

/** Tiers by index, and a share without one: invented, as evenly mixed as a map can meet. */
const tierOf = (index: number): number => [70, 50, 25, 0].findIndex((least) => index >= least);

/** Buildings of the United States' extent: scattered evenly, or around 60 towns of unlike size. */
export function columnsOf(n: number, spread: Spread): Columns {
  const random = drawing(9);
  const [longitude, latitude] = [new Float64Array(n), new Float64Array(n)];
  const towns = Array.from({ length: 60 }, () => [-122 + 50 * random(), 30 + 17 * random()]);
  for (let b = 0; b < n; b++) {
    const [east, north] = spread === 'even' ? [-97, 39] : towns[Math.floor(60 * random() ** 2)]!;
    const [width, height] = spread === 'even' ? [52, 20] : [1.2, 0.9];
    longitude[b] = east! + width * offset(random, spread);
    latitude[b] = north! + height * offset(random, spread);
  }
  return { n, longitude, latitude, ...scoresOf(n, 1) };
}

function drawing(seed: number): () => number {
  const state = seeded(seed);
  return () => unit(state);
}

/** From -0.5 to 0.5; in a town most lie near its middle. */
const offset = (random: () => number, spread: Spread): number =>
  spread === 'even' ? random() - 0.5 : (random() + random() + random() + random() - 2) / 4;

/** Scores of the same buildings as another ranking would have them. */
export function scoresOf(n: number, seed: number): Pick<Frame, 'tier' | 'index'> {
  const random = drawing(seed);
  const index = Float64Array.from({ length: n }, () =>
    random() < 0.02 ? Number.NaN : Math.round(1e8 * random() ** 3) / 1e6,
  );
  return { index, tier: Uint8Array.from(index, (i) => (Number.isNaN(i) ? 4 : tierOf(i))) };
}
