import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { guessMap } from '../../analysis/mapping/guess.ts';
import { csvSheet, told } from './sheets.ts';

// Open data of the registry package vega-datasets: its airports, postal codes and state capitals, headings and all.
const data = (name: string): string =>
  readFileSync(`node_modules/vega-datasets/data/${name}`, 'utf8');

test('a list of airports is read unhelped, its code the identifier', () => {
  const { map, missing, guesses } = guessMap(csvSheet('airports.csv', data('airports.csv')), 'any');
  expect(map.shape).toBe('buildings');
  expect(told(map)).toEqual([
    'iata: building_id',
    'name: name',
    'city: city',
    'state: region',
    'latitude: latitude',
    'longitude: longitude',
  ]);
  expect(missing).toEqual([]);
  expect(guesses[0]!.confidence).toBeLessThan(0.5);
  expect(guesses[0]!.why).toContain('no column is named as an identifier');
});

test('a list of postal codes with coordinates is placed by these, its code the identifier', () => {
  const { map, missing } = guessMap(csvSheet('zipcodes.csv', data('zipcodes.csv')), 'any');
  expect(told(map)).toEqual([
    'zip_code: building_id',
    'latitude: latitude',
    'longitude: longitude',
    'city: city',
    'state: region',
  ]);
  expect(missing).toEqual([]);
});

test('a list of state capitals is read unhelped, the city standing in for an identifier', () => {
  const capitals: { lon: number; lat: number; state: string; city: string }[] = JSON.parse(
    data('us-state-capitals.json'),
  );
  const { map, missing } = guessMap(
    {
      file: 'us-state-capitals.json',
      headings: Object.keys(capitals[0]!),
      rows: capitals.map((row) => Object.values(row).map(String)),
      decimalComma: false,
    },
    'buildings',
  );
  expect(told(map)).toEqual([
    'lon: longitude',
    'lat: latitude',
    'state: region',
    'city: building_id',
  ]);
  expect(missing).toEqual([]);
});

test.each(['airports.csv', 'zipcodes.csv'])(
  'the values of %s tell where its places are when the headings say nothing',
  (name) => {
    const sample = csvSheet(name, data(name));
    const silent = { ...sample, headings: sample.headings.map((_, i) => `col${i + 1}`) };
    const named = new Map(
      guessMap(silent, 'buildings').map.columns.map(({ fills }, i) => [
        fills?.column,
        sample.headings[i],
      ]),
    );
    expect(named.get('latitude')).toBe('latitude');
    expect(named.get('longitude')).toBe('longitude');
    expect(named.get('region')).toBe('state');
    expect(named.get('building_id')).toBe(sample.headings[0]);
  },
);
