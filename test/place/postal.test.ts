import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { type GeoPermissibleObjects, geoArea, geoContains, group, least, range, sum } from 'd3';
import { merge } from 'topojson-client';
import type { GeometryCollection, MultiPolygon, Polygon, Topology } from 'topojson-specification';
import { describe, expect, test } from 'vitest';
import {
  inReach,
  postalAttribution,
  postalCentroids,
  postalCountry,
  zipOf,
} from '../../analysis/place/postal.ts';
import { findRegion } from '../../analysis/place/regions.ts';
import { buildPostal } from '../../data/postal/build.ts';
import { kilometres } from './distance.ts';

const folder = join(dirname(createRequire(import.meta.url).resolve('vega-datasets')), '../data');
const postal = postalCentroids(buildPostal().buffer);
const lines = readFileSync(join(folder, 'zipcodes.csv'), 'utf8').trim().split('\n').slice(1);
/** The source without the codes that it places north-west of the inhabited islands of Hawaii. */
const kept = lines.filter((line) => {
  const [, latitude, longitude] = line.split(',').map(Number);
  return !(longitude! > -170 && longitude! < -161 && latitude! > 23 && latitude! < 26);
});

describe('US postal codes', () => {
  test('every code of the source is found, at the place the source gives to 5 decimals', () => {
    const wrong = kept.filter((line) => {
      const [zip, latitude, longitude] = line.split(',');
      const found = postal.find(zip!);
      return (
        found === null ||
        Math.abs(found.latitude - Number(latitude)) > 1e-5 ||
        Math.abs(found.longitude - Number(longitude)) > 2e-5
      );
    });
    expect(wrong).toEqual([]);
    expect(postal.n).toBe(kept.length);
  });

  test('codes that the source places far outside their state have no place: Honolulu, out at sea', () => {
    const left = lines.filter((line) => postal.find(line.slice(0, 5)) === null);
    expect(left).toHaveLength(51);
    expect(left.every((line) => line.endsWith(',HI,Honolulu'))).toBe(true);
    expect(postal.find('96815')).toBeNull();
  });

  // State capitals: vega-datasets us-state-capitals.json, a source apart from the GeoNames postal codes.
  test('a postal code of each state capital lies within 30 km of the capital', () => {
    const capitals: readonly { lon: number; lat: number; city: string }[] = JSON.parse(
      readFileSync(join(folder, 'us-state-capitals.json'), 'utf8'),
    );
    const cells = kept.map((line) => line.split(','));
    const far = capitals.filter(({ lon, lat, city }) => {
      const spelled = city.replace('St. ', 'Saint ');
      const distances = cells
        .filter(([, , , place]) => place === spelled)
        .map(([zip]) => postal.find(zip!)!)
        .map((place) => kilometres(place.latitude, place.longitude, lat, lon));
      return !(Math.min(...distances) < 30);
    });
    expect(far.map(({ city }) => city)).toEqual([]);
  });

  test('nine digits, with or without a hyphen, stand for their first five', () => {
    expect(postal.find('98101-1234')).toEqual(postal.find('98101'));
    expect(postal.find('981011234')).toEqual(postal.find('98101'));
    expect(zipOf('98101 1234')).toBe('98101');
  });

  test.each(['', '9810', '98101-12', 'V6B 1A1', '99999', '981O1', '98101-12345'])(
    '%j is not found',
    (code) => expect(postal.find(code)).toBeNull(),
  );

  test('bytes that are no list of postal codes throw', () => {
    expect(() => postalCentroids(new ArrayBuffer(0))).toThrow('not a list');
    expect(() => postalCentroids(new Uint8Array([9, 0, 0, 0, 1]).buffer)).toThrow('not a list');
  });

  test('the attribution names source and licence, as CC BY 4.0 asks', () => {
    expect(postalAttribution).toMatch(/GeoNames.*CC BY 4\.0/);
  });
});

/** The 48 states and DC that touch one another, from us-atlas (US Census Bureau cartographic boundaries 2017). */
function mainland(): GeoPermissibleObjects {
  const manifest = createRequire(import.meta.url).resolve('us-atlas/package.json');
  const atlas: Topology<{ states: GeometryCollection }> = JSON.parse(
    readFileSync(join(dirname(manifest), 'states-10m.json'), 'utf8'),
  );
  const { geometries } = atlas.objects.states;
  // Census codes: 02 Alaska, 15 Hawaii, from 60 on the territories.
  const states = geometries.filter(({ id }) => Number(id) < 60 && id !== '02' && id !== '15');
  return merge(atlas, states as (Polygon | MultiPolygon)[]);
}

describe('how far from its centre a building of a postal code may stand (an estimate)', () => {
  const land = mainland();
  const codes = kept.map((line) => {
    const cells = line.split(',');
    return { zip: cells[0]!, city: cells[3]!, state: cells[4]!, ...postal.find(cells[0]!)! };
  });
  const onMainland = codes.filter(
    ({ latitude, longitude }) => latitude > 24 && latitude < 50 && longitude > -130,
  );
  const spots = group(onMainland, ({ latitude, longitude }) => `${latitude} ${longitude}`);

  test('it is 1 to 250 km, kept to 0.1 km', () => {
    for (const { radiusKm } of codes) {
      expect(radiusKm).toBeGreaterThanOrEqual(1);
      expect(radiusKm).toBeLessThanOrEqual(250);
      expect(Number.isInteger(Math.round(radiusKm * 1e6) / 1e5)).toBe(true);
    }
  });

  test('of all land, more than 95 % lies within reach of the nearest centre (us-atlas)', () => {
    const points = range(25, 50, 1.5).flatMap((lat) =>
      range(-125, -66, 1.5).map((lon) => [lon, lat] as const),
    );
    const onLand = points.filter(([lon, lat]) => geoContains(land, [lon, lat]));
    const reached = onLand.filter(([lon, lat]) => {
      const near = onMainland.filter(({ latitude }) => Math.abs(latitude - lat) < 2);
      const nearest = least(near, (c) => kilometres(lat, lon, c.latitude, c.longitude))!;
      return kilometres(lat, lon, nearest.latitude, nearest.longitude) <= nearest.radiusKm;
    });
    expect(onLand.length).toBeGreaterThan(300);
    expect(reached.length / onLand.length).toBeGreaterThan(0.95);
  });

  // Points scattered evenly have their sixth neighbour at a distance whose mean square is six times the area of each,
  // over pi (a property of the Poisson process); so the circles, over six, add up to the land.
  test('the areas implied add up to the land, within a quarter (us-atlas)', () => {
    const alone = [...spots.values()].flatMap((here) => (here.length === 1 ? here : []));
    const implied = alone.map(({ radiusKm }) => (Math.PI * radiusKm ** 2) / 6);
    const km2 = geoArea(land) * 6371.0088 ** 2;
    expect(sum(implied) / km2).toBeGreaterThan(0.75);
    expect(sum(implied) / km2).toBeLessThan(1.25);
  });

  // Land areas from memory of the Census Bureau's ZIP code tabulation areas: 10001 New York 1.6 km², 89049 Tonopah 26,000 km².
  test.each([
    ['10001', 1.6],
    ['89049', 26_000],
  ])('%s reaches past the circle of its area, and not past twice that', (zip, km2) => {
    const circle = Math.sqrt(km2 / Math.PI);
    const { radiusKm } = postal.find(zip)!;
    expect(radiusKm).toBeGreaterThan(circle);
    expect(radiusKm).toBeLessThan(circle * 2);
  });

  test('codes of one spot, which the source puts in the middle of the county, reach the capital they serve', () => {
    const capitals: readonly { lon: number; lat: number; city: string; state: string }[] =
      JSON.parse(readFileSync(join(folder, 'us-state-capitals.json'), 'utf8'));
    const shared = [...spots.values()].flatMap((here) => (here.length > 1 ? here : []));
    const pairs = capitals.flatMap(({ lat, lon, city, state }) =>
      shared
        .filter(
          (c) => c.city === city.replace('St. ', 'Saint ') && c.state === findRegion(state)!.code,
        )
        .map((c) => ({ ...c, km: kilometres(lat, lon, c.latitude, c.longitude) })),
    );
    const short = pairs.filter(({ km, radiusKm }) => km > radiusKm);
    expect(pairs.length).toBeGreaterThan(300);
    expect(short).toEqual([]);
  });

  test('a place contradicts a code beyond 50 km, in wide areas beyond three radii', () => {
    const [city, wide] = [postal.find('10001')!, postal.find('89049')!];
    const north = (area: typeof city, km: number) => area.latitude + km / 111.195;
    expect(inReach(city, north(city, 49.9), city.longitude)).toBe(true);
    expect(inReach(city, north(city, 50.1), city.longitude)).toBe(false);
    expect(inReach(wide, north(wide, 2.99 * wide.radiusKm), wide.longitude)).toBe(true);
    expect(inReach(wide, north(wide, 3.01 * wide.radiusKm), wide.longitude)).toBe(false);
  });
});

describe('the country of a postal code', () => {
  test('five or nine digits are read as US, A1A 1A1 as Canadian', () => {
    expect(postalCountry('98101')).toBe('US');
    expect(postalCountry('98101-0001')).toBe('US');
    expect(postalCountry('v6b1a1')).toBe('CA');
    expect(postalCountry('V6B 1A1')).toBe('CA');
  });

  // Canada Post never uses D, F, I, O, Q or U, nor W or Z in first place (from memory of its addressing guidelines).
  test.each(['D6B 1A1', 'V6O 1A1', 'W1A 1A1', '1234', 'SW1A 1AA', ''])('%j tells nothing', (code) =>
    expect(postalCountry(code)).toBeNull(),
  );
});
