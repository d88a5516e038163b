import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  postalAttribution,
  postalCentroids,
  postalCountry,
  zipOf,
} from '../../analysis/place/postal.ts';
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
