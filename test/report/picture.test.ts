import { describe, expect, test } from 'vitest';
import { boundsOf as boundsAround } from '../../analysis/place/bounds.ts';
import { frameOf } from '../../dashboard/report/map-frame.ts';
import { markSide, marksOf } from '../../dashboard/report/map-marks.ts';
import { roundLength } from '../../dashboard/report/picture.ts';
import { rainPicture } from '../../dashboard/report/rain-picture.ts';

/** IUGG mean radius of the Earth. */
const radiusKm = 6371.0088;
const kmPerDegree = (radiusKm * Math.PI) / 180;
const size = { width: 680, maxHeight: 520, margin: 26 };
const states = { west: -124, south: 25, east: -67, north: 49 };

describe('the frame of a map', () => {
  const frame = frameOf(states, size);

  test('holds its bounds within the margin, north up', () => {
    for (const [longitude, latitude] of [
      [-124, 25],
      [-124, 49],
      [-67, 25],
      [-67, 49],
      [-95, 49],
    ] as const) {
      const [x, y] = frame.place(longitude, latitude)!;
      expect(x).toBeGreaterThanOrEqual(size.margin - 1);
      expect(x).toBeLessThanOrEqual(frame.width - size.margin + 1);
      expect(y).toBeGreaterThanOrEqual(size.margin - 1);
      expect(y).toBeLessThanOrEqual(frame.height - size.margin + 1);
    }
    expect(frame.place(-95, 45)![1]).toBeLessThan(frame.place(-95, 35)![1]);
    expect(frame.height).toBeLessThanOrEqual(size.maxHeight);
  });

  test('shows equal areas of the Earth as equal areas: R² Δλ (sin φ₂ − sin φ₁)', () => {
    const perKm2 = [27, 37, 47].map((south) => {
      const corners = (
        [
          [-96, south],
          [-95.9, south],
          [-95.9, south + 0.1],
          [-96, south + 0.1],
        ] as const
      ).map(([x, y]) => frame.place(x, y)!);
      const area = corners.reduce((sum, [x, y], i) => {
        const [a, b] = corners[(i + 1) % 4]!;
        return sum + (x * b - a * y) / 2;
      }, 0);
      const radians = Math.PI / 180;
      const true2 =
        radiusKm ** 2 *
        0.1 *
        radians *
        (Math.sin((south + 0.1) * radians) - Math.sin(south * radians));
      return Math.abs(area) / true2;
    });
    expect(perKm2[1]! / perKm2[0]!).toBeCloseTo(1, 3);
    expect(perKm2[2]! / perKm2[0]!).toBeCloseTo(1, 3);
  });

  test('tells its scale in the middle', () => {
    const town = frameOf({ west: -123, south: 47, east: -122, north: 48 }, size);
    const [a, b] = [town.place(-122.5, 47.25)!, town.place(-122.5, 47.75)!];
    expect(Math.abs(a[1] - b[1]) / town.unitsPerKm).toBeCloseTo(kmPerDegree / 2, 1);
  });

  test('one building is drawn with the region around it', () => {
    const alone = frameOf({ west: -122, south: 47, east: -122, north: 47 }, size);
    expect(alone.shows.north - alone.shows.south).toBeGreaterThanOrEqual(1);
    const [x, y] = alone.place(-122, 47)!;
    expect(Math.abs(x - alone.width / 2)).toBeLessThan(1);
    expect(Math.abs(y - alone.height / 2)).toBeLessThan(1);
  });

  test('a portfolio around the world is drawn as one', () => {
    const world = frameOf({ west: -160, south: -40, east: 150, north: 60 }, size);
    for (const longitude of [-160, 0, 150]) {
      const [x] = world.place(longitude, 10)!;
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(world.width);
    }
  });

  test('the scale bar is 1, 2 or 5 times a power of ten, and not longer than asked', () => {
    expect([0.7, 1, 19, 20, 49, 50, 99, 1000].map(roundLength)).toEqual([
      0.5, 1, 10, 20, 20, 50, 50, 1000,
    ]);
  });
});

/** The box around the buildings shown. */
const boundsOf = (
  { longitude, latitude }: { readonly longitude: Float64Array; readonly latitude: Float64Array },
  shown: Int32Array,
) => boundsAround(longitude, latitude, shown);

describe('a picture across 180°', () => {
  // Attu, Adak, Anchorage: from memory, to 0.1°.
  const placed = {
    longitude: Float64Array.of(173.2, -176.6, -149.9),
    latitude: Float64Array.of(52.8, 51.9, 61.2),
    tier: Uint8Array.of(0, 1, 2),
  };
  const all = Int32Array.of(0, 1, 2);
  const bounds = boundsOf(placed, all)!;
  const frame = frameOf(bounds, size);

  test('is as wide as its places are apart, not the world', () => {
    expect(bounds.east - bounds.west).toBeCloseTo(36.9, 9);
    expect(frame.shows.east - frame.shows.west).toBeLessThan(60);
    const [attu, adak] = [frame.place(173.2, 52.8)!, frame.place(-176.6, 51.9)!];
    // Great-circle distance by the haversine formula on the mean Earth: 699 km.
    const km = Math.hypot(attu[0] - adak[0], attu[1] - adak[1]) / frame.unitsPerKm;
    expect(Math.abs(km - 699)).toBeLessThan(35);
  });

  test('has its marks where their buildings are, west to east', () => {
    const marks = marksOf(placed, all, bounds).sort((a, b) => a.tier - b.tier);
    expect(marks.map(({ n }) => n)).toEqual([1, 1, 1]);
    const at = marks.map(({ longitude, latitude }) => frame.place(longitude, latitude)!);
    for (const [i, b] of all.entries()) {
      const [x, y] = frame.place(placed.longitude[b]!, placed.latitude[b]!)!;
      expect(at[i]![0]).toBeCloseTo(x, 6);
      expect(at[i]![1]).toBeCloseTo(y, 6);
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(frame.width);
    }
    expect(at[0]![0]).toBeLessThan(at[1]![0]);
    expect(at[1]![0]).toBeLessThan(at[2]![0]);
  });

  test('neighbours on the two sides share a mark between them, not one on the other side of the Earth', () => {
    const near = {
      longitude: Float64Array.of(179.99, -179.99, 160, -170),
      latitude: Float64Array.of(-17, -17, -10, -14),
      tier: Uint8Array.of(0, 0, 1, 1),
    };
    const four = Int32Array.of(0, 1, 2, 3);
    const marks = marksOf(near, four, boundsOf(near, four)!);
    expect(marks.find(({ n }) => n === 2)!.longitude).toBeCloseTo(180, 9);
  });
});

describe('the marks of buildings', () => {
  const placed = {
    longitude: Float64Array.of(-122, -122.0001, -100, Number.NaN),
    latitude: Float64Array.of(47, 47, 30, Number.NaN),
    tier: Uint8Array.of(3, 0, 2, 4),
  };
  const shown = Int32Array.of(3, 2, 1, 0);
  const bounds = boundsOf(placed, shown)!;
  const marks = marksOf(placed, shown, bounds);

  test('every building with a place lies under one mark, those without under none', () => {
    expect(marks.reduce((sum, { n }) => sum + n, 0)).toBe(3);
  });

  test('a mark shows the foremost tier under it, and the foremost lies on top', () => {
    expect(marks.map(({ tier, n }) => [tier, n])).toEqual([
      [2, 1],
      [0, 2],
    ]);
  });

  test('no place, no bounds; one place, one mark', () => {
    expect(boundsOf(placed, Int32Array.of(3))).toBeNull();
    const alone = Int32Array.of(2);
    expect(marksOf(placed, alone, boundsOf(placed, alone)!)).toHaveLength(1);
  });

  test('marks grow with what they stand for, up to a limit', () => {
    expect(markSide(1)).toBeLessThan(markSide(10));
    expect(markSide(10_000)).toBe(markSide(10_000_000));
  });

  test('very many buildings come to no more marks than there are cells', () => {
    const n = 200_000;
    const many = {
      longitude: Float64Array.from({ length: n }, (_, i) => -120 + ((i * 7919) % 50_000) / 1000),
      latitude: Float64Array.from({ length: n }, (_, i) => 28 + ((i * 104_729) % 20_000) / 1000),
      tier: Uint8Array.from({ length: n }, (_, i) => i % 5),
    };
    const all = Int32Array.from({ length: n }, (_, b) => b);
    const cells = marksOf(many, all, boundsOf(many, all)!);
    expect(cells.length).toBeLessThanOrEqual(65 * 65);
    expect(cells.reduce((sum, cell) => sum + cell.n, 0)).toBe(n);
  });
});

describe('the rain behind a map', () => {
  // 508 mm at 95° west exactly, 10 mm a degree: the 20-inch line is that meridian.
  const [width, height] = [81, 41];
  const sheet = {
    width,
    height,
    west: -135,
    north: 60,
    stepX: 1,
    stepY: -1,
    mm: Float32Array.from({ length: width * height }, (_, i) => 508 + ((i % width) - 40) * 10),
  };
  const frame = frameOf(states, size);
  const picture = rainPicture(sheet, frame, 'american', [], () => true);

  test('a line of equal rain is drawn where the grid has that rain', () => {
    const main = picture.lines.find(({ label }) => label === '20 in')!;
    const points = main.d
      .slice(1)
      .split('L')
      .map((point) => point.split(' ').map(Number));
    expect(points.length).toBeGreaterThan(10);
    const middle = frame.place(-95, 40)![0];
    for (const [x] of points) expect(Math.abs(x! - middle)).toBeLessThan(2);
    expect(main.main).toBe(true);
  });

  test('shading comes driest first, so that the wetter lies over it', () => {
    expect(picture.shades.length).toBeGreaterThan(1);
    expect(new Set(picture.shades.map(({ fill }) => fill)).size).toBe(picture.shades.length);
  });

  test('figures keep apart from each other, from what is written, and stand where they may', () => {
    const written = [frame.place(-95, 38)!];
    const east = (point: readonly [number, number]) => point[1] > frame.height / 2;
    const { lines } = rainPicture(sheet, frame, 'american', written, east);
    const places = lines.flatMap(({ at }) => (at ? [at] : []));
    expect(places.length).toBeGreaterThan(0);
    for (const [i, place] of places.entries()) {
      expect(east(place)).toBe(true);
      for (const other of [...written, ...places.slice(i + 1)])
        expect(Math.hypot(place[0] - other[0], (place[1] - other[1]) * 2)).toBeGreaterThan(50);
    }
  });
});
