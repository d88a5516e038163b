import { expect, test } from 'vitest';
import { placeDoubt } from '../../dashboard/building/facts.ts';

const detail = (record: Record<string, string | number | null>) => ({
  b: 0,
  row: {},
  record: { postal_code: '97201', ...record },
  walls: [],
  timeline: [],
  drivingRain: null,
});

test('what is taken from the postal code is said, and only that', () => {
  const given = { place_source: 'coordinates', region_source: 'record' };
  expect(placeDoubt(detail(given))).toBe('');
  expect(placeDoubt(detail({ ...given, region_source: 'postal code' }))).toBe(
    'Region read from the postal code.',
  );
  const placed = { place_source: 'postal centroid', place_km: 3.2, region_source: 'postal code' };
  expect(placeDoubt(detail(placed))).toBe(
    'Placed at the centre of postal code 97201, within about 3 km (an estimate): rain and terrain are those of that point. Region read from the postal code.',
  );
  expect(placeDoubt(detail({ ...placed, region_source: 'record' }))).not.toContain('Region');
});
