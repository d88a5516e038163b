import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { neighbourhoods } from '../../analysis/exposure/belts.ts';
import { clustersOf, greatestApart } from '../../analysis/exposure/clusters.ts';
import { nearness } from '../../analysis/exposure/near.ts';
import { sumAt } from '../../analysis/exposure/sums.ts';
import type { ExposureColumns } from '../../analysis/exposure/types.ts';
import { haversineKm } from '../../analysis/rain/great-circle.ts';
import { inScope, linesOf, sumsOf } from './naive.ts';
import { portfolio, someLines } from './portfolio.ts';

const usd = 1;

/** Every distance, every sum, greatest first: the definition as it reads. */
function bruteForce(c: ExposureColumns, shown: Int32Array, km: number) {
  const postal = c.placeSource.words.indexOf('postal centroid');
  const located = [...shown].filter(
    (b) =>
      c.placeSource.codes[b] !== postal &&
      !Number.isNaN(c.longitude[b]!) &&
      !Number.isNaN(c.latitude[b]!),
  );
  const millimetres = (a: number, b: number) =>
    Math.round(haversineKm(c.longitude[a]!, c.latitude[a]!, c.longitude[b]!, c.latitude[b]!) * 1e6);
  const within = (b: number) => located.filter((other) => millimetres(b, other) <= km * 1e6);
  const counts = (b: number) =>
    c.tier[b]! <= 1 && c.currency.codes[b] === usd && c.insuredValue[b]! > 0;
  const circles = located.filter(counts).map((b) => {
    const inside = within(b);
    const cents = inside
      .filter(counts)
      .reduce((sum, other) => sum + Math.round(c.insuredValue[other]! * 100), 0);
    return { b, inside, cents };
  });
  circles.sort((x, y) => y.cents - x.cents || x.b - y.b);
  const found: typeof circles = [];
  for (const circle of circles) {
    if (found.length === 20) break;
    if (found.every(({ b }) => millimetres(b, circle.b) > 2 * km * 1e6 + 1)) found.push(circle);
  }
  return found;
}

describe('clusters equal brute force', () => {
  const radii = [0.5, 1.3, 5, 20, 50];
  test.each(radii)('within %d km: the same centres in the same order, the same lines', (km) => {
    for (const [seed, spread] of [
      [1, 0.05],
      [2, 0.4],
      [3, 4],
    ] as const) {
      const c = portfolio(1200, { seed, spread });
      const shown = someLines(c.n, seed);
      const clusters = clustersOf(c, shown, km, usd);
      const naive = bruteForce(c, shown, km);
      expect([...clusters.centre]).toEqual(naive.map(({ b }) => b));
      naive.forEach(({ inside }, i) => {
        const lines = linesOf(c, Int32Array.from(inside));
        for (const scope of ['all', 'low', 'mean', 'high'] as const) {
          const { value, lines: n } = sumsOf(inScope(lines, scope), usd);
          expect(sumAt(clusters.sums, 'value', i, scope)).toBe(value);
          expect(sumAt(clusters.sums, 'lines', i, scope)).toBe(n);
        }
        for (const tier of [0, 1, 2, 3, 4]) {
          const ofTier = lines.filter(({ tiers }) => tiers.mean === tier);
          expect(sumAt(clusters.byTier, 'value', i * 5 + tier, 'all')).toBe(
            sumsOf(ofTier, usd).value,
          );
        }
      });
    }
  });

  test('beside a pole and across the 180th meridian', () => {
    const towns = [
      [0, 89.9],
      [120, 89.8],
      [-100, -89.95],
      [179.999, 60],
      [-180, 60.02],
      [180, 59.99],
    ] as const;
    const c = portfolio(800, { towns, spread: 0.02, blank: 0 });
    const wide = { ...c, longitude: c.longitude.map((lon, b) => (b % 97 === 0 ? 180 : lon)) };
    const shown = someLines(c.n, 2);
    for (const km of [2, 30, 50]) {
      expect([...clustersOf(wide, shown, km, usd).centre]).toEqual(
        bruteForce(wide, shown, km).map(({ b }) => b),
      );
    }
  });

  test('of equal sums the earlier building comes first, and buildings at one place are one cluster', () => {
    const places = {
      longitude: Float64Array.of(10, 10, 0, 0, 10),
      latitude: Float64Array.of(50, 50, 50, 50, 50),
      weight: Float64Array.of(1, 2, 3, 0, 0),
    };
    expect(greatestApart(places, 1)).toEqual([0, 2]);
  });
});

describe('what is in no circle is counted aside', () => {
  const c = portfolio(900, { seed: 9 });
  const shown = someLines(c.n, 9);
  const { placed, centre, sums } = clustersOf(c, shown, 50, usd);

  test('located, postal centroid and no place at all sum to all lines', () => {
    for (const scope of ['all', 'low', 'mean', 'high'] as const) {
      const { lines, value } = sumsOf(inScope(linesOf(c, shown), scope), usd);
      const parts = (measure: 'lines' | 'value') =>
        [0, 1, 2].reduce((all, g) => all + Math.round(sumAt(placed, measure, g, scope) * 100), 0);
      expect(parts('lines')).toBe(lines * 100);
      expect(parts('value')).toBe(Math.round(value * 100));
    }
    expect(sumAt(placed, 'lines', 1, 'all')).toBeGreaterThan(0);
    expect(sumAt(placed, 'lines', 2, 'all')).toBeGreaterThan(0);
  });

  test('no line lies in two circles: their values never exceed that of the located lines', () => {
    const inCircles = Array.from(centre, (_, i) => sumAt(sums, 'value', i, 'mean'));
    const total = inCircles.reduce((a, b) => a + Math.round(b * 100), 0);
    expect(total).toBeLessThanOrEqual(Math.round(sumAt(placed, 'value', 0, 'mean') * 100));
  });
});

interface Reference {
  readonly source: string;
  readonly cities: readonly { name: string; long: number; lat: number; pop: number }[];
  readonly pairs: readonly { a: number; b: number; haversine_km: number; geodesic_km: number }[];
  readonly clusters: readonly {
    radius_km: number;
    centre: readonly number[];
    population: readonly number[];
  }[];
}

describe('against the R package geosphere over 1,005 US cities', () => {
  const { cities, pairs, clusters } = JSON.parse(
    readFileSync('test/reference/exposure/clusters.json', 'utf8'),
  ) as Reference;
  const places = {
    longitude: Float64Array.from(cities, ({ long }) => long),
    latitude: Float64Array.from(cities, ({ lat }) => lat),
    weight: Float64Array.from(cities, ({ pop }) => pop),
  };

  test('distances are those of its haversine to the millimetre, and within 0.6 % of its geodesics', () => {
    expect(pairs.length).toBeGreaterThan(100);
    for (const { a, b, haversine_km, geodesic_km } of pairs) {
      const [from, to] = [cities[a]!, cities[b]!];
      const km = haversineKm(from.long, from.lat, to.long, to.lat);
      expect(Math.abs(km - haversine_km)).toBeLessThan(1e-6);
      expect(Math.abs(km / geodesic_km - 1)).toBeLessThan(0.006);
    }
  });

  test('a pair is within a radius just above its distance and not within one just below', () => {
    const { within } = nearness(places);
    for (const { a, b, haversine_km } of pairs) {
      expect(within(haversine_km + 2e-6)(a, b)).toBe(true);
      expect(within(haversine_km - 2e-6)(a, b)).toBe(false);
    }
  });

  test.each(clusters)(
    'within $radius_km km the cities of greatest population about them are the same',
    (one) => {
      expect(greatestApart(places, one.radius_km)).toEqual(one.centre);
      const { exact } = neighbourhoods(places, one.radius_km);
      expect(one.centre.map(exact)).toEqual(one.population);
    },
  );
});
