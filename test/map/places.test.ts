import { csvParseRows, geoContains, geoDistance } from 'd3';
import type { Feature } from 'geojson';
import { feature } from 'topojson-client';
import { describe, expect, test } from 'vitest';
import { placeFeatures, places } from '../../dashboard/map/places.ts';
import { fileText, landSources } from './support.ts';

const { countries, states } = landSources();
const byName = (features: Feature[]) =>
  new Map(features.map((f) => [String(f.properties?.name), f]));
const stateOf = byName(feature(states, states.objects.states).features);
const countryOf = byName(feature(countries, countries.objects.countries).features);

const cities = places.filter(({ kind }) => kind === 'city');
const km = (a: [number, number], b: [number, number]) => geoDistance(a, b) * 6371;

describe('names on the map', () => {
  test('are unique within their kind and region', () => {
    const keys = places.map(({ kind, region, name }) => `${kind} ${region} ${name}`);
    expect(new Set(keys).size).toBe(keys.length);
  });

  test('hold each of the 50 states and 13 provinces and territories once', () => {
    const regions = places.filter(({ kind }) => kind === 'region');
    const states50 = [...stateOf.keys()].filter(
      (name) => !/District|Puerto|Virgin Islands|Guam|Samoa|Mariana/.test(name),
    );
    expect(
      regions
        .filter(({ region }) => region === 'US')
        .map(({ name }) => name)
        .sort(),
    ).toEqual(states50.sort());
    expect(regions.filter(({ region }) => region === 'CA')).toHaveLength(13);
  });

  test.each(places.filter(({ kind, region }) => kind === 'region' && region === 'US'))(
    '$name stands within its own outline (U.S. Census, us-atlas)',
    ({ name, longitude, latitude }) => {
      expect(geoContains(stateOf.get(name)!, [longitude, latitude])).toBe(true);
    },
  );

  test.each(cities.filter(({ region }) => stateOf.has(region)))(
    '$name lies in $region (U.S. Census, us-atlas), or within 5 km of it',
    ({ region, longitude, latitude }) => {
      const near = [0, -0.05, 0.05].flatMap((dx) =>
        [0, -0.05, 0.05].map((dy) => [longitude + dx, latitude + dy] as [number, number]),
      );
      expect(near.some((point) => geoContains(stateOf.get(region)!, point))).toBe(true);
    },
  );

  test('provinces lie in Canada, and cities of Canada and Mexico in theirs (Natural Earth, world-atlas)', () => {
    const abroad = places.filter(
      ({ kind, region }) => region === 'CA' || (kind === 'city' && !stateOf.has(region)),
    );
    const outside = abroad.filter(({ region, longitude, latitude }) => {
      const country = countryOf.get(region === 'Mexico' || region === 'MX' ? 'Mexico' : 'Canada')!;
      const near = [0, -0.15, 0.15].flatMap((dx) =>
        [0, -0.15, 0.15].map((dy) => [longitude + dx, latitude + dy] as [number, number]),
      );
      return !near.some((point) => geoContains(country, point));
    });
    expect(outside.map(({ name }) => name)).toEqual([]);
  });

  test('state capitals agree with an independent table within 15 km (vega-datasets us-state-capitals)', () => {
    const capitals = JSON.parse(
      fileText('node_modules/vega-datasets/data/us-state-capitals.json'),
    ) as {
      city: string;
      state: string;
      lon: number;
      lat: number;
    }[];
    const shared = cities.flatMap((city) => {
      const capital = capitals.find((row) => row.city === city.name && row.state === city.region);
      return capital ? [km([capital.lon, capital.lat], [city.longitude, city.latitude])] : [];
    });
    expect(shared.length).toBeGreaterThanOrEqual(14);
    expect(Math.max(...shared)).toBeLessThan(15);
  });

  test('each US city has an airport within 40 km (vega-datasets airports)', () => {
    const rows = csvParseRows(fileText('node_modules/vega-datasets/data/airports.csv')).slice(1);
    const airports = rows.map(
      (row) => [Number(row.at(-1)), Number(row.at(-2))] as [number, number],
    );
    const far = cities.filter(
      ({ region, longitude, latitude }) =>
        stateOf.has(region) && !airports.some((airport) => km(airport, [longitude, latitude]) < 40),
    );
    expect(far.map(({ name }) => name)).toEqual([]);
  });
});

test('places become points with their name, kind and rank', () => {
  const { features } = placeFeatures();
  expect(features).toHaveLength(places.length);
  expect(features.find(({ properties }) => properties?.name === 'Denver')).toMatchObject({
    properties: { kind: 'city', rank: 1 },
    geometry: { type: 'Point', coordinates: [-104.99, 39.74] },
  });
});
