import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { feature } from 'topojson-client';
import type { GeometryCollection, Topology } from 'topojson-specification';
import { describe, expect, test } from 'vitest';
import { nearBox, nearCountry } from '../../analysis/place/coordinates.ts';
import { findRegion, regions } from '../../analysis/place/regions.ts';

const require = createRequire(import.meta.url);
const vega = join(dirname(require.resolve('vega-datasets')), '../data');

const capitals: readonly { lon: number; lat: number; state: string }[] = JSON.parse(
  readFileSync(join(vega, 'us-state-capitals.json'), 'utf8'),
);

/** Capitals of provinces and territories, from memory, to about 5 km. */
const canadianCapitals: readonly (readonly [string, number, number])[] = [
  ['BC', 48.43, -123.37],
  ['AB', 53.55, -113.49],
  ['SK', 50.45, -104.62],
  ['MB', 49.9, -97.14],
  ['ON', 43.65, -79.38],
  ['QC', 46.81, -71.21],
  ['NB', 45.96, -66.64],
  ['NS', 44.65, -63.57],
  ['PE', 46.24, -63.13],
  ['NL', 47.56, -52.71],
  ['YT', 60.72, -135.06],
  ['NT', 62.45, -114.37],
  ['NU', 63.75, -68.52],
];

/** Outline of Canada from world-atlas (Natural Earth), as positions. */
function outlineOfCanada(): readonly (readonly number[])[] {
  const file = join(dirname(require.resolve('world-atlas/package.json')), 'countries-110m.json');
  const atlas: Topology<{ countries: GeometryCollection<{ name: string }> }> = JSON.parse(
    readFileSync(file, 'utf8'),
  );
  const canada = feature(atlas, atlas.objects.countries).features.find(
    ({ properties }) => properties.name === 'Canada',
  );
  if (canada?.geometry.type !== 'MultiPolygon') throw new Error('no outline');
  return canada.geometry.coordinates.flat(2);
}

describe('regions', () => {
  test('there are 50 states, DC, Puerto Rico, and 13 provinces and territories', () => {
    expect(regions.filter(({ country }) => country === 'US')).toHaveLength(52);
    expect(regions.filter(({ country }) => country === 'CA')).toHaveLength(13);
    expect(new Set(regions.map(({ code }) => code)).size).toBe(65);
  });

  test('each US state capital lies in the box of its state (vega-datasets us-state-capitals.json)', () => {
    expect(capitals).toHaveLength(50);
    for (const { state, lat, lon } of capitals) {
      expect(nearBox(findRegion(state)!, lat, lon), state).toBe(true);
    }
  });

  test('each Canadian capital lies in the box of its province (from memory)', () => {
    for (const [code, lat, lon] of canadianCapitals) {
      expect(nearBox(findRegion(code)!, lat, lon), code).toBe(true);
    }
  });

  test('the typed boxes together hold the outline of Canada (Natural Earth, through world-atlas)', () => {
    const provinces = regions.filter(({ country }) => country === 'CA');
    const outside = outlineOfCanada().filter(
      ([lon, lat]) => !provinces.some((box) => nearBox(box, lat!, lon!)),
    );
    expect(outside).toEqual([]);
  });

  test('US postal codes lie within half a degree of the box of their state, but for Honolulu', () => {
    const rows = readFileSync(join(vega, 'zipcodes.csv'), 'utf8').trim().split('\n').slice(1);
    const known = rows.map((row) => row.split(',')).filter((cells) => findRegion(cells[4]!));
    const outside = known.filter(
      ([, lat, lon, , state]) => !nearBox(findRegion(state!)!, Number(lat), Number(lon)),
    );
    expect(known.length).toBeGreaterThan(41_000);
    expect(new Set(outside.map((cells) => cells[5]))).toEqual(new Set(['Honolulu']));
  });

  test.each([
    ['WA', 'WA'],
    ['wa', 'WA'],
    ['Washington', 'WA'],
    [' washington ', 'WA'],
    ['US-WA', 'WA'],
    ['WA, USA', 'WA'],
    ['B.C.', 'BC'],
    ['Québec', 'QC'],
    ['QUEBEC', 'QC'],
    ['Washington, D.C.', 'DC'],
    ['new-york', 'NY'],
    ['CA', 'CA'],
    ['CA-ON', 'ON'],
    ['Newfoundland', 'NL'],
    ["Hawai'i", 'HI'],
  ])('%j is %s', (text, code) => expect(findRegion(text)?.code).toBe(code));

  test.each(['', 'Jalisco', 'Pacific Northwest', 'W', 'USA', '__proto__'])(
    '%j is no region',
    (text) => expect(findRegion(text)).toBeNull(),
  );

  test('a marine climate is possible on the Pacific coast only (judgement)', () => {
    const marine = regions.filter(({ marine_possible }) => marine_possible === 'yes');
    expect(marine.map(({ code }) => code).sort()).toEqual(['AK', 'BC', 'CA', 'OR', 'WA']);
  });
});

describe('a place and a box', () => {
  const near = (code: string, lat: number, lon: number) => nearBox(findRegion(code)!, lat, lon);

  test('half a degree outside a region is near, more is not', () => {
    expect(near('WA', 47.6, -122.3)).toBe(true);
    expect(near('WA', 45.1, -122)).toBe(true);
    expect(near('WA', 45.03, -122)).toBe(false);
    expect(near('WA', 25.8, -80.2)).toBe(false);
  });
  // Places from memory of the US Geological Survey's list of names (GNIS), to 0.1°.
  test.each([
    ['Attu Station', 52.8, 173.2],
    ['Shemya', 52.7, 174.1],
    ['Semisopochnoi', 51.9, 179.6],
    ['Adak', 51.9, -176.7],
    ['Anchorage', 61.2, -149.9],
    ['Hyder', 55.9, -130],
  ])('the box of Alaska holds both sides of 180°: %s', (_, lat, lon) => {
    expect(near('AK', lat, lon)).toBe(true);
    expect(nearCountry('US', lat, lon)).toBe(true);
  });
  test.each([
    ['Magadan', 59.6, 150.8],
    ['west of Attu', 52.8, 171.9],
    ['Whitehorse, exchanged in sign', 60.7, 135.1],
    ['Calgary', 51.3, -114.1],
  ])('and no more than half a degree beyond: %s', (_, lat, lon) =>
    expect(near('AK', lat, lon)).toBe(false),
  );
  test('only Alaska crosses 180°, and the box around its country holds every region', () => {
    expect(regions.filter(({ west, east }) => west > east).map(({ code }) => code)).toEqual(['AK']);
    for (const { country, west, east, south, north } of regions) {
      expect(nearCountry(country, south, west)).toBe(true);
      expect(nearCountry(country, north, east)).toBe(true);
    }
    expect(nearCountry('US', 52, 170)).toBe(false);
    expect(nearCountry('US', 40, -60)).toBe(false);
  });
  test('a country is near only inside the box around its regions', () => {
    expect(nearCountry('US', 47.6, -122.3)).toBe(true);
    expect(nearCountry('US', 52.5, 13.4)).toBe(false);
    expect(nearCountry('CA', 49.3, -123.1)).toBe(true);
  });
});
