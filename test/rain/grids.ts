import type { RainGrid } from '../../analysis/rain/grid.ts';

/** A grid for tests: 1° steps from 100° W, 50° N southwards unless said otherwise; null is no data. */
export function gridOf(
  rows: readonly (readonly (number | null)[])[],
  rest: Partial<RainGrid> = {},
): RainGrid {
  return {
    width: rows[0]!.length,
    height: rows.length,
    west: -100,
    north: 50,
    stepX: 1,
    stepY: -1,
    mm: Float32Array.from(rows.flat(), (x) => x ?? Number.NaN),
    wrapsLongitude: false,
    source: 'a grid for tests',
    period: 'none',
    ...rest,
  };
}

/** A file of the user's, its text in small pieces. */
export function fileOf(text: string, name = 'rain.csv') {
  const bytes = new TextEncoder().encode(text);
  return {
    name,
    size: bytes.length,
    async *bytes() {
      for (let i = 0; i < bytes.length; i += 64) yield bytes.subarray(i, i + 64);
    },
    slice: async (from: number, to: number) => bytes.slice(from, to),
  };
}
