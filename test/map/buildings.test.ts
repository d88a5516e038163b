import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { boundsOf } from '../../analysis/place/bounds.ts';
import { marksOf } from '../../dashboard/map/tiles/cells.ts';
import { encodeMarks, extent } from '../../dashboard/map/tiles/encode.ts';
import {
  type Entries,
  entryScores,
  type Scores,
  shownOf,
} from '../../dashboard/map/tiles/entries.ts';
import { boundsOfTile } from '../../dashboard/map/tiles/mercator.ts';
import { nearestBuildings } from '../../dashboard/map/tiles/nearest.ts';
import {
  type PlacedBuildings,
  placeBuildings,
  tileRun,
} from '../../dashboard/map/tiles/portfolio.ts';
import { readTile, seeded, tileOfPlace } from './support.ts';

function scattered(n: number) {
  const random = seeded(20);
  const fill = (of: () => number) => Float64Array.from({ length: n }, of);
  return {
    longitude: fill(() => -125 + random() * 60),
    latitude: fill(() => 25 + random() * 25),
    tier: Uint8Array.from({ length: n }, () => Math.floor(random() * 5)),
    cents: Int16Array.from({ length: n }, () => 10 * Math.round(random() * 1000)),
  };
}

const entriesOf = (
  placed: PlacedBuildings,
  scores: Scores,
  ordinals: Int32Array | null = null,
): Entries => ({
  placed,
  scores: entryScores(placed, scores),
  shown: shownOf(placed, ordinals),
});

const everyTile = (z: number) =>
  Array.from({ length: 4 ** z }, (_, i) => ({ z, x: i % 2 ** z, y: Math.floor(i / 2 ** z) }));

const place = fc.record({
  longitude: fc.double({ min: -180, max: 179.999, noNaN: true }),
  latitude: fc.double({ min: -84, max: 84, noNaN: true }),
});

test('every building lies in the tile where the map scheme puts it, and in no other', () => {
  const given = fc.tuple(fc.array(place, { maxLength: 60 }), fc.integer({ min: 0, max: 16 }));
  fc.assert(
    fc.property(given, ([places, z]) => {
      const placed = placeBuildings(
        Float64Array.from(places, ({ longitude }) => longitude),
        Float64Array.from(places, ({ latitude }) => latitude),
      );
      places.forEach(({ longitude, latitude }, b) => {
        const tile = tileOfPlace(longitude, latitude, z);
        const [from, to] = tileRun(placed, tile);
        const run = placed.ordinal.slice(from, to);
        // A place on a tile's very edge may round to either side.
        const bounds = boundsOfTile(tile);
        const onEdge =
          [bounds.west, bounds.east].some((edge) => Math.abs(edge - longitude) < 1e-6) ||
          [bounds.north, bounds.south].some((edge) => Math.abs(edge - latitude) < 1e-6);
        expect(onEdge || run.includes(b)).toBe(true);
      });
      const inAll =
        z > 3
          ? places.length
          : everyTile(z).reduce((sum, tile) => {
              const [from, to] = tileRun(placed, tile);
              return sum + to - from;
            }, 0);
      expect(inAll).toBe(places.length);
    }),
    { seed: 508, numRuns: 150 },
  );
});

test('buildings without a place are left out and counted', () => {
  const longitude = Float64Array.of(-100, Number.NaN, -90, -80);
  const latitude = Float64Array.of(40, 41, Number.NaN, 42);
  expect([...placeBuildings(longitude, latitude).ordinal].sort()).toEqual([0, 3]);
  expect(boundsOf(longitude, latitude)).toEqual({ west: -100, east: -80, south: 40, north: 42 });
  expect(boundsOf(Float64Array.of(Number.NaN), Float64Array.of(1))).toBeNull();
});

test('places on both sides of 180° lie in one narrow box, its east beyond 180', () => {
  const longitude = Float64Array.of(173.2, Number.NaN, -149.9, -176.6, 0);
  const latitude = Float64Array.of(52.8, 10, 61.2, 51.9, 0);
  const alaska = Int32Array.of(3, 0, 1, 2);
  const bounds = boundsOf(longitude, latitude, alaska)!;
  expect(bounds).toMatchObject({ west: 173.2, south: 51.9, north: 61.2 });
  expect(bounds.east).toBeCloseTo(210.1, 9);
  expect(boundsOf(longitude, latitude, Int32Array.of(1))).toBeNull();
});

describe('up to 5,000 shown', () => {
  const portfolio = scattered(5000);
  const placed = placeBuildings(portfolio.longitude, portfolio.latitude);
  const entries = entriesOf(placed, portfolio);

  test('each is drawn at the smallest scale, under its own id, within a pixel of its place', () => {
    const seen = everyTile(2).flatMap((tile) =>
      readTile(encodeMarks(marksOf(entries, tile))).map((feature) => {
        const { geometry } = feature.toGeoJSON(tile.x, tile.y, tile.z);
        const b = feature.id!;
        expect(feature.properties).toMatchObject({ tier: portfolio.tier[b] });
        const [longitude, latitude] = geometry.type === 'Point' ? geometry.coordinates : [];
        const pixel = 360 / 2 ** tile.z / 512;
        expect(Math.abs(longitude! - portfolio.longitude[b]!)).toBeLessThan(pixel);
        expect(Math.abs(latitude! - portfolio.latitude[b]!)).toBeLessThan(pixel);
        return Number(feature.properties.n);
      }),
    );
    expect(seen.reduce((sum, n) => sum + n, 0)).toBe(5000);
    expect(seen.length).toBeGreaterThan(4900);
  });

  test('buildings on one spot share a mark that counts them and shows the foremost tier', () => {
    const same = {
      longitude: new Float64Array(3).fill(-79.4),
      latitude: new Float64Array(3).fill(43.7),
    };
    const scores = { tier: Uint8Array.of(3, 1, 1), cents: Int16Array.of(1000, 6000, 7000) };
    const spot = placeBuildings(same.longitude, same.latitude);
    const marks = marksOf(entriesOf(spot, scores), tileOfPlace(-79.4, 43.7, 14));
    expect(marks).toMatchObject({ n: 1 });
    expect([marks.ordinal[0], marks.tier[0], marks.count[0]]).toEqual([2, 1, 3]);
  });
});

describe('more than 5,000 shown', () => {
  const portfolio = scattered(40_000);
  const placed = placeBuildings(portfolio.longitude, portfolio.latitude);
  const entries = entriesOf(placed, portfolio);

  test.each([3, 5, 9, 14])(
    'none is lost at zoom %i: the marks of all tiles count them all',
    (z) => {
      const tiles = new Map(
        Array.from(portfolio.longitude, (longitude, b) => {
          const tile = tileOfPlace(longitude, portfolio.latitude[b]!, z);
          return [`${tile.x}/${tile.y}`, tile] as const;
        }),
      );
      const marks = [...tiles.values()].map((tile) => marksOf(entries, tile));
      expect(marks.reduce((sum, { count }) => sum + count.reduce((a, n) => a + n, 0), 0)).toBe(
        40_000,
      );
    },
  );

  test('a small scale has at most 256 marks a tile, and each shows the foremost tier of its cell', () => {
    for (const tile of everyTile(3)) {
      const marks = marksOf(entries, tile);
      expect(marks.n).toBeLessThanOrEqual(256);
      const [from, to] = tileRun(placed, tile);
      const cell = (position: number, at: number) =>
        Math.floor((position / (2 ** 32 / 8) - at) * 16);
      const foremost = new Map<string, number>();
      for (let i = from; i < to; i++) {
        const key = `${cell(placed.x[i]!, tile.x)}/${cell(placed.y[i]!, tile.y)}`;
        foremost.set(key, Math.min(foremost.get(key) ?? 9, portfolio.tier[placed.ordinal[i]!]!));
      }
      const sorted = (tiers: Iterable<number>) => [...tiers].sort((a, b) => a - b);
      expect(sorted(marks.tier)).toEqual(sorted(foremost.values()));
    }
  });

  test('marks are written lightest first, so that the foremost tier is drawn on top', () => {
    const { tier } = marksOf(entries, { z: 5, x: 8, y: 12 });
    expect([...tier]).toEqual([...tier].sort((a, b) => b - a));
    expect(new Set(tier).size).toBeGreaterThan(1);
  });

  test('a filter leaves what passes it, and fewer than 5,000 are drawn one by one again', () => {
    const passing = Int32Array.from({ length: 4000 }, (_, k) => 39_990 - 10 * k);
    const few = entriesOf(placed, portfolio, passing);
    const ordinals = everyTile(3).flatMap((tile) => [...marksOf(few, tile).ordinal]);
    expect(ordinals.length).toBeGreaterThan(3950);
    expect(ordinals.every((b) => b % 10 === 0)).toBe(true);
  });

  test('marks keep to their tile: positions from 0 to 4,095', () => {
    const { x, y, n } = marksOf(entries, { z: 3, x: 2, y: 3 });
    expect(n).toBeGreaterThan(0);
    for (const position of [...x, ...y]) {
      expect(position).toBeGreaterThanOrEqual(0);
      expect(position).toBeLessThan(extent);
    }
  });

  test('a walk by keyboard goes from the centre of the view outwards, as a plain sort does', () => {
    const within = { west: -100, east: -90, south: 35, north: 45 };
    const found = nearestBuildings(entries, { within, longitude: -95, latitude: 40, atMost: 25 });
    const project = (latitude: number) => Math.asinh(Math.tan((latitude * Math.PI) / 180));
    const distance = (b: number) =>
      Math.hypot(
        ((portfolio.longitude[b]! + 95) * Math.PI) / 180,
        project(portfolio.latitude[b]!) - project(40),
      );
    const expected = Array.from(portfolio.tier.keys())
      .filter(
        (b) =>
          Math.abs(portfolio.longitude[b]! + 95) < 5 && Math.abs(portfolio.latitude[b]! - 40) < 5,
      )
      .sort((a, b) => distance(a) - distance(b))
      .slice(0, 25);
    expect([...found]).toEqual(expected);
  });
});

test('those nearest the centre are found in a box across 180°, on both sides', () => {
  const portfolio = {
    longitude: Float64Array.of(173, -150, 179.9, -179.9, 10, -100),
    latitude: Float64Array.of(52, 61, 52, 52, 52, 52),
    tier: new Uint8Array(6),
    cents: new Int16Array(6),
  };
  const entries = entriesOf(placeBuildings(portfolio.longitude, portfolio.latitude), portfolio);
  // The same view, as the map may count it: on from 180 or back from −180.
  for (const turn of [0, -360]) {
    const within = { west: 165 + turn, east: 215 + turn, south: 40, north: 70 };
    const centre = { longitude: 179.98 + turn, latitude: 52 };
    const found = nearestBuildings(entries, { within, ...centre, atMost: 9 });
    expect([...found]).toEqual([2, 3, 0, 1]);
  }
});
