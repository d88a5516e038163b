import { describe, expect, test } from 'vitest';
import { noIndex } from '../../analysis/rank/cents.ts';
import { cellSentence } from '../../dashboard/map/cell-words.ts';
import { type CellSummary, cellAt, marksOf } from '../../dashboard/map/tiles/cells.ts';
import { type Entries, entryScores, shownOf } from '../../dashboard/map/tiles/entries.ts';
import type { TileId } from '../../dashboard/map/tiles/mercator.ts';
import { placeBuildings } from '../../dashboard/map/tiles/portfolio.ts';
import { seeded, tileOfPlace } from './support.ts';

/** A scatter around a few towns, some without a place, some not scored, some on one spot. */
function portfolioOf(n: number) {
  const random = seeded(41);
  const town = () => Math.floor(random() * 5);
  const places = Array.from({ length: n }, (_, b) => {
    if (b % 97 === 0) return [Number.NaN, Number.NaN];
    if (b % 11 === 0) return [-87.6, 41.9];
    return [-110 + 7 * town() + random() * 0.4, 30 + 3 * town() + random() * 0.4];
  });
  const tier = Uint8Array.from({ length: n }, () => Math.floor(random() * 5));
  return {
    longitude: Float64Array.from(places, ([longitude]) => longitude!),
    latitude: Float64Array.from(places, ([, latitude]) => latitude!),
    tier,
    cents: Int16Array.from(tier, (t) => (t === 4 ? noIndex : Math.round(random() * 1e4))),
  };
}

const n = 12_000;
const portfolio = portfolioOf(n);
const placed = placeBuildings(portfolio.longitude, portfolio.latitude);
const half = Int32Array.from({ length: n / 2 }, (_, k) => n - 1 - 2 * k);
const entriesWith = (ordinals: Int32Array | null): Entries => ({
  placed,
  scores: entryScores(placed, portfolio),
  shown: shownOf(placed, ordinals),
});

/** All tiles of a zoom that hold a building. */
function tilesOf(z: number): TileId[] {
  const tiles = Array.from(placed.ordinal, (b) =>
    tileOfPlace(portfolio.longitude[b]!, portfolio.latitude[b]!, z),
  );
  return [...new Map(tiles.map((tile) => [`${tile.x}/${tile.y}`, tile])).values()];
}

/** What a cell holds, told from longitude and latitude alone: the cells of a tile are tiles four zooms deeper. */
function cellByName(z: number, ordinals: Iterable<number>) {
  const cells = new Map<string, number[]>();
  for (const b of ordinals) {
    if (Number.isNaN(portfolio.longitude[b]!)) continue;
    const { x, y } = tileOfPlace(portfolio.longitude[b]!, portfolio.latitude[b]!, z + 4);
    cells.set(`${x}/${y}`, [...(cells.get(`${x}/${y}`) ?? []), b]);
  }
  return cells;
}

function naiveSummary(inside: readonly number[]) {
  const scored = inside.filter((b) => portfolio.tier[b] !== 4).map((b) => portfolio.cents[b]!);
  const sum = scored.reduce((total, cents) => total + cents, 0);
  const [b] = inside.toSorted(
    (i, j) =>
      portfolio.tier[i]! - portfolio.tier[j]! || portfolio.cents[j]! - portfolio.cents[i]! || i - j,
  );
  return {
    b,
    n: inside.length,
    counts: [0, 1, 2, 3, 4].map((t) => inside.filter((i) => portfolio.tier[i] === t).length),
    mean: sum / 100 / scored.length,
  };
}

describe.each([
  ['all', null, Array.from({ length: n }, (_, b) => b)],
  ['half', half, [...half]],
] as const)('with %s of the portfolio shown', (_, ordinals, list) => {
  const entries = entriesWith(ordinals);

  test.each([3, 6, 10, 13])(
    'each mark of zoom %i tells count, tiers, mean index and the heaviest as a plain count does',
    (z) => {
      const cells = cellByName(z, list);
      const marks = tilesOf(z).map((tile) => marksOf(entries, tile));
      expect(marks.reduce((sum, tile) => sum + tile.n, 0)).toBe(cells.size);
      for (const inside of cells.values()) {
        const expected = naiveSummary(inside);
        const summary = cellAt(entries, z, inside[0]!)!;
        expect(summary).toMatchObject({
          b: expected.b,
          n: expected.n,
          counts: expected.counts,
        });
        if (Number.isNaN(expected.mean)) expect(summary.meanIndex).toBeNaN();
        else expect(Math.abs(summary.meanIndex - expected.mean)).toBeLessThanOrEqual(0.05 + 1e-9);
        expect(Math.round(summary.meanIndex * 10) / 10).toEqual(summary.meanIndex);
      }
    },
  );

  test.each([4, 8, 11, 15, 16])(
    'a mark of zoom %i is counted and filled as its cell tells',
    (z) => {
      for (const tile of tilesOf(z).slice(0, 40)) {
        const { ordinal, count, tier, meanIndex } = marksOf(entries, tile);
        ordinal.forEach((b, k) => {
          const summary = cellAt(entries, z, b)!;
          const told = [summary.b, summary.n, portfolio.tier[summary.b], summary.meanIndex];
          expect(told).toEqual([b, count[k], tier[k], meanIndex[k]]);
        });
      }
    },
  );
});

test('at the deepest zoom each building has a mark of its own, save those on one spot', () => {
  const entries = entriesWith(null);
  const marks = tilesOf(16).map((tile) => marksOf(entries, tile));
  const spot = cellAt(entries, 16, 11)!;
  expect(spot.n).toBe(Array.from(placed.ordinal).filter((b) => b % 11 === 0).length);
  const others = marks.flatMap(({ count }) => [...count]).filter((count) => count !== spot.n);
  expect(others.length).toBeGreaterThan(10_000);
  expect(Math.max(...others)).toBeLessThan(4);
});

test('a mark of several buildings stands in their middle, within a fifth of the cell from its centre', () => {
  const entries = entriesWith(null);
  const unit = 2 ** (32 - 7 - 12);
  const side = 4096 / 16;
  const cells = cellByName(
    7,
    Array.from({ length: n }, (_, i) => i),
  );
  for (const tile of tilesOf(7)) {
    const { x, y, ordinal, count } = marksOf(entries, tile);
    ordinal.forEach((b, k) => {
      const place = tileOfPlace(portfolio.longitude[b]!, portfolio.latitude[b]!, 11);
      const inside = cells.get(`${place.x}/${place.y}`)!;
      const mean = (of: Uint32Array) =>
        inside.reduce((sum, i) => sum + of[placed.entryOf[i]!]!, 0) / inside.length / unit;
      const expected = (mean: number, cell: number) => {
        const centre = (cell + 0.5) * side;
        const off = count[k] === 1 ? Infinity : 0.2 * side;
        return Math.max(centre - off, Math.min(centre + off, mean));
      };
      expect(Math.abs(x[k]! + tile.x * 4096 - expected(mean(placed.x), place.x))).toBeLessThan(1.5);
      expect(Math.abs(y[k]! + tile.y * 4096 - expected(mean(placed.y), place.y))).toBeLessThan(1.5);
    });
  }
});

test('a building without a place, or one that is filtered out, lies under no mark', () => {
  expect(cellAt(entriesWith(null), 5, 0)).toBeUndefined();
  expect(cellAt(entriesWith(half), 5, 2)).toBeUndefined();
  expect(cellAt(entriesWith(null), 5, 2)).toBeDefined();
});

describe('what is shown', () => {
  test('all of it costs no mask', () => {
    expect(shownOf(placed, null)).toEqual({ mask: null, n: placed.ordinal.length });
  });

  test('counts a building once, and none without a place or beyond the portfolio', () => {
    const { n: count, mask } = shownOf(placed, Int32Array.of(1, 1, 2, 0, 97, n + 5, -1));
    expect(count).toBe(2);
    expect(mask!.reduce((sum, bit) => sum + bit, 0)).toBe(2);
  });
});

test('a cell is told in words: buildings, tiers that occur, mean index', () => {
  const told = (summary: CellSummary) => cellSentence(summary).replaceAll('\u00a0', ' ');
  expect(told({ b: 1, n: 1240, counts: [31, 0, 0, 1208, 1], meanIndex: 22 })).toBe(
    '1,240 buildings here: 31 First look, 1,208 No flag, 1 Not scored; mean index 22.0.',
  );
  expect(told({ b: 1, n: 2, counts: [0, 0, 0, 0, 2], meanIndex: Number.NaN })).toBe(
    '2 buildings here: 2 Not scored; none with an index.',
  );
});
