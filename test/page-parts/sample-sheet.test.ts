import { describe, expect, it } from 'vitest';
import { csvTable } from '../../analysis/csv-table.ts';
import {
  entryPlaces,
  locatorsOf,
  protocol,
  sheetCautions,
} from '../../dashboard/sample/field-sheet.ts';
import { around, locatorBox, locatorOf } from '../../dashboard/sample/locator.ts';
import vocabulary from '../../data/vocabulary.csv?raw';

/** IUGG mean radius of the Earth: a degree of latitude is 111.195 km. */
const kmPerDegree = (6371.0088 * Math.PI) / 180;

const place = (id: string, latitude: number, longitude: number) => ({ id, latitude, longitude });
const town = [
  place('south', 47, -122),
  place('north', 47.1, -122),
  place('east', 47, -121.9),
  place('far', 30, -90),
];

describe('the locator map', () => {
  const found = locatorOf(town.slice(0, 3), 1)!;
  const [south, north, east] = found.dots;

  it('has north up and east to the right, at one scale', () => {
    expect(north!.y).toBeLessThan(south!.y);
    expect(north!.x).toBeCloseTo(south!.x, 9);
    expect(east!.x).toBeGreaterThan(south!.x);
    // A degree of longitude is shorter than one of latitude by the cosine of the mean latitude.
    const mean = ((47 + 47.1 + 47) / 3) * (Math.PI / 180);
    expect((east!.x - south!.x) / (south!.y - north!.y)).toBeCloseTo(Math.cos(mean), 5);
  });

  it('its bar measures what lies on it', () => {
    const perKm = found.bar.width / found.bar.length;
    expect((south!.y - north!.y) / perKm).toBeCloseTo(0.1 * kmPerDegree, 6);
  });

  it('its bar in miles is as long as its miles (1.609344 km by definition)', () => {
    const { bar, dots } = locatorOf(town.slice(0, 3), 1.609344)!;
    const perMile = bar.width / bar.length;
    expect((dots[0]!.y - dots[1]!.y) / perMile).toBeCloseTo((0.1 * kmPerDegree) / 1.609344, 6);
  });

  it('holds every place, and a single one in its middle', () => {
    for (const { x, y } of locatorOf(town, 1)!.dots) {
      expect(x).toBeGreaterThanOrEqual(locatorBox.margin - 1e-9);
      expect(x).toBeLessThanOrEqual(locatorBox.width - locatorBox.margin + 1e-9);
      expect(y).toBeGreaterThanOrEqual(locatorBox.margin - 1e-9);
      expect(y).toBeLessThanOrEqual(locatorBox.height - locatorBox.foot + 1e-9);
    }
    const alone = locatorOf([town[0]!], 1)!;
    expect(alone.dots[0]!.x).toBeCloseTo(locatorBox.width / 2, 9);
    expect(Number.isFinite(alone.bar.width)).toBe(true);
    expect(locatorOf([], 1)).toBeNull();
  });

  it('shows a building first, then those nearest to it', () => {
    expect(around(town, 3).map(({ id }) => id)).toEqual(['far', 'east', 'south', 'north']);
    const row = Array.from({ length: 40 }, (_, i) => place(`${i}`, 40 + i / 100, -100));
    expect(around(row, 0).map(({ id }) => id)).toEqual(['0', '1', '2', '3', '4', '5']);
    expect(locatorsOf(row, 1).get('20')!.dots[0]!.id).toBe('20');
  });

  it.each([0.5, 3, 41, 777])(
    'its bar over %s thousandths of a degree is 1, 2 or 5 times a power of ten long, and takes up to half the map',
    (milliDegrees) => {
      const places = [town[0]!, place('next', 47 + milliDegrees / 1000, -122)];
      const { bar } = locatorOf(places, 1)!;
      const digit = Number(bar.length.toExponential().split('e')[0]);
      expect([1, 2, 5]).toContain(digit);
      const room = (locatorBox.width - 2 * locatorBox.margin) / 2;
      expect(bar.width).toBeLessThanOrEqual(room + 1e-9);
      expect(bar.width).toBeGreaterThan(room / 2.5 - 1e-9);
    },
  );
});

describe('what a field sheet asks', () => {
  it('its places are those that a finding may name, each once', () => {
    const locations = csvTable<'column' | 'value'>(vocabulary)
      .filter(({ column }) => column === 'location')
      .map(({ value }) => value);
    const asked = entryPlaces.map(({ location }) => location);
    expect(locations.length).toBeGreaterThan(5);
    expect([...asked].sort()).toEqual([...new Set(locations)].sort());
  });

  it('cautions come before anything is cut, signs of harm first', () => {
    expect(sheetCautions.map(({ id }) => id)).toEqual([
      'ACT-NOW',
      'BEFORE-CUTTING',
      'OPENING-DESTROYS',
      'METER-READINGS',
    ]);
  });

  it('notice to all parties is the first step, before any opening', () => {
    expect(protocol[0]!.when).toBe('Before');
    expect(protocol[0]!.steps[0]).toMatch(/written notice and protocol/i);
  });
});
