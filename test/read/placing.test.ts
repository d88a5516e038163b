import { group } from 'd3';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inReach } from '../../analysis/place/postal.ts';
import { findRegion } from '../../analysis/place/regions.ts';
import { isComplaint } from '../../analysis/read/placing.ts';
import { accepted, type Cells, mended, mendFor, place, postal, reason, vega } from './places.ts';

const seattle: Cells = { latitude: '47.6', longitude: '-122.3' };
const codes = (cells: Cells): readonly (string | undefined)[] => {
  const found = place(cells);
  return isComplaint(found) ? [found.code] : ['accepted', found.note?.code];
};

// airports.csv of npm vega-datasets: a source apart from outlines and postal codes; 12 rows have no state.
const airports = vega('airports.csv')
  .filter(({ state }) => findRegion(state!))
  .map(({ latitude, longitude, state }) => ({ latitude, longitude, region: state }) as Cells);
/** Rows that the source itself places outside their state. */
const sound = airports.filter((airport) => !isComplaint(place(airport)));
/** Alaska reaches across 180°: without their sign Adak and Atka would stand among its islands still. */
const eitherSide = ['-176.6460306', '-174.2063503'];
const oneSided = sound.filter(({ longitude }) => !eitherSide.includes(longitude!));

describe('airports of the United States (vega-datasets airports.csv)', () => {
  test('nearly all stand in their state: the rest are errors of the source', () => {
    expect(airports.length).toBeGreaterThan(3300);
    expect(airports.length - sound.length).toBeLessThanOrEqual(3);
    expect(sound.length - oneSided.length).toBe(2);
  });

  const slips: readonly (readonly [string, (airport: Cells) => Cells])[] = [
    ['swapped', (a) => ({ ...a, latitude: a.longitude!, longitude: a.latitude! })],
    ['longitude without its sign', (a) => ({ ...a, longitude: a.longitude!.slice(1) })],
    ['latitude with a sign', (a) => ({ ...a, latitude: `-${a.latitude}` })],
    [
      'the sign at the wrong one',
      (a) => ({ ...a, latitude: `-${a.latitude}`, longitude: a.longitude!.slice(1) }),
    ],
    [
      'swapped without a sign',
      (a) => ({ ...a, latitude: a.longitude!.slice(1), longitude: a.latitude! }),
    ],
  ];
  const airport = fc.constantFrom(...oneSided);

  test.each(slips)('%s is never accepted, and its mend restores every place exactly', (_, slip) => {
    for (const truth of oneSided) {
      const { latitude, longitude } = accepted(mended(slip(truth)));
      expect([latitude, longitude]).toEqual([Number(truth.latitude), Number(truth.longitude)]);
    }
  });

  test.each(['47608013', '47.608013'])(
    'a longitude without its decimal point is restored beside latitude %s',
    (lat) => {
      const cells = { latitude: lat, longitude: '-122335167', region: 'WA' };
      expect(mended(cells)).toEqual({
        latitude: '47.608013',
        longitude: '-122.335167',
        region: 'WA',
      });
    },
  );

  const pointless = (text: string): string => text.replace('.', '');
  test('lost decimal points are restored to the digit (property)', () => {
    fc.assert(
      fc.property(airport, fc.constantFrom('latitude', 'longitude', 'both'), (truth, which) => {
        const slipped = {
          ...truth,
          ...(which === 'longitude' ? {} : { latitude: pointless(truth.latitude!) }),
          ...(which === 'latitude' ? {} : { longitude: pointless(truth.longitude!) }),
        };
        expect(mended(slipped)).toEqual(truth);
      }),
      { seed: 11, numRuns: 1000 },
    );
  });

  test('any mix of slips is accepted only at the true place (property)', () => {
    const sign = fc.constantFrom('keeps', 'loses');
    fc.assert(
      fc.property(airport, fc.boolean(), sign, sign, (truth, swaps, northing, westing) => {
        const lat = `${northing === 'loses' ? '-' : ''}${truth.latitude}`;
        const lon = westing === 'loses' ? truth.longitude!.slice(1) : truth.longitude!;
        const slipped = { ...truth, latitude: swaps ? lon : lat, longitude: swaps ? lat : lon };
        const found = place(slipped);
        const cells = isComplaint(found) ? mended(slipped) : slipped;
        const { latitude, longitude } = accepted(cells);
        expect([latitude, longitude]).toEqual([Number(truth.latitude), Number(truth.longitude)]);
      }),
      { seed: 12, numRuns: 1000 },
    );
  });

  // FAA and aeronautical charts write positions so: 47-26-59N / 122-18-42W (common practice, no source).
  test('written with letters of the hemisphere they stand where they stood (property)', () => {
    fc.assert(
      fc.property(airport, (truth) => {
        const cells = {
          ...truth,
          latitude: `${truth.latitude} N`,
          longitude: `${truth.longitude!.slice(1)}° W`,
        };
        const { latitude, longitude } = accepted(cells);
        expect([latitude, longitude]).toEqual([Number(truth.latitude), Number(truth.longitude)]);
      }),
      { seed: 13, numRuns: 300 },
    );
  });
});

describe('postal codes against coordinates (vega-datasets zipcodes.csv)', () => {
  const centres = vega('zipcodes.csv').filter(
    ({ zip_code, state }) => postal.find(zip_code!) && findRegion(state!),
  );
  const centre = fc.constantFrom(...centres);

  test('a code alone, without a region, tells swapped and sign lost, and the mend restores (property)', () => {
    fc.assert(
      fc.property(centre, fc.boolean(), (row, swaps) => {
        const { zip_code, latitude, longitude } = row as Record<string, string>;
        const truth = { latitude: latitude!, longitude: longitude!, postal_code: zip_code! };
        const slipped = swaps
          ? { ...truth, latitude: longitude!, longitude: latitude! }
          : { ...truth, longitude: longitude!.slice(1) };
        expect(reason(slipped).code).toBe(swaps ? 'swapped' : 'minus-missing');
        expect(mended(slipped)).toEqual(truth);
        expect(codes(truth)).toEqual(['accepted', undefined]);
      }),
      { seed: 14, numRuns: 1000 },
    );
  });

  test('a code whose zeros a spreadsheet dropped does the same, and contradicts nothing by itself', () => {
    const boston = { latitude: '42.36', longitude: '-71.06', postal_code: '2134' };
    expect(accepted(boston).country).toBe('US');
    expect(mended({ ...boston, latitude: '-71.06', longitude: '42.36' })).toEqual(boston);
    expect(mended({ ...boston, longitude: '71.06' })).toEqual(boston);
    // Four digits are a postal code of Australia too, there near Sydney (from memory).
    expect(codes({ latitude: '-33.87', longitude: '151.1', postal_code: '2134' })).toEqual([
      'accepted',
      undefined,
    ]);
  });

  test('an airport stands within reach of the only code of its town, but for errors of the source', () => {
    const towns = group(centres, ({ city, state }) => `${city}, ${state}`);
    const pairs = vega('airports.csv').flatMap((airport) => {
      const rows = towns.get(`${airport.city}, ${airport.state}`) ?? [];
      return rows.length === 1 ? [{ airport, code: rows[0]!.zip_code! }] : [];
    });
    const far = pairs.filter(
      ({ airport, code }) =>
        !inReach(postal.find(code)!, Number(airport.latitude), Number(airport.longitude)),
    );
    expect(pairs.length).toBeGreaterThan(1900);
    expect(far.length / pairs.length).toBeLessThan(0.005);
  });

  test('far from its code but in its region: the place stands, with a note that says how far', () => {
    const { note, latitude, source } = accepted({ ...seattle, region: 'WA', postal_code: '99201' });
    expect([latitude, source]).toEqual([47.6, 'coordinates']);
    expect(note).toMatchObject({ column: 'postal_code', code: 'far-from-postal-code' });
    expect(note!.mend).toBeUndefined();
    // Seattle to Spokane is about 370 km as the crow flies (from memory).
    const km = Number(/are (\d+) km from the centre of postal_code "99201"/.exec(note!.says)![1]);
    expect(Math.abs(km - 370)).toBeLessThan(15);
  });

  test('far from its code without a region to agree: set aside with the distance', () => {
    const { code, says, mend } = reason({ ...seattle, postal_code: '33101' });
    expect(code).toBe('far-from-postal-code');
    expect(says).toMatch(/^the coordinates are 4\d{3} km from the centre of postal_code "33101"/);
    expect(mend).toBeUndefined();
  });

  test('a German code that is also one of New York does not place a building of Berlin', () => {
    const { says } = reason({ latitude: '52.52', longitude: '13.40', postal_code: '10115' });
    expect(says).toContain('leave postal_code empty if the building stands outside the United');
  });

  test('region and code agree against the coordinates: placing by the code is offered', () => {
    const cells = { latitude: '25.8', longitude: '-80.2', region: 'WA', postal_code: '98109' };
    expect(reason(cells)).toMatchObject({ code: 'outside-region', column: 'latitude' });
    expect(reason(cells).says).toContain('km from postal_code "98109"');
    expect(accepted(mended(cells)).source).toBe('postal centroid');
  });

  test('coordinates and code agree against the region: an empty region is offered', () => {
    const cells = { ...seattle, region: 'FL', postal_code: '98109' };
    expect(reason(cells)).toMatchObject({ code: 'outside-region', column: 'region', value: 'FL' });
    expect(accepted(mended(cells))).toMatchObject({ latitude: 47.6, country: 'US', region: null });
  });

  test('all three disagree: set aside, and nothing is offered', () => {
    const cells = { latitude: '40', longitude: '-100', region: 'FL', postal_code: '98109' };
    expect(reason(cells).code).toBe('outside-region');
    expect(reason(cells).mend).toBeUndefined();
  });

  test('a slip that the region explains is offered though the code lies elsewhere in it', () => {
    const cells = { ...seattle, longitude: '122.3', region: 'WA', postal_code: '99201' };
    expect(codes(mended(cells))).toEqual(['accepted', 'far-from-postal-code']);
  });

  test('the first letter of a Canadian code tells the province (Canada Post, from memory)', () => {
    const vancouver = { latitude: '49.28', longitude: '-123.12', postal_code: 'V6B 1A1' };
    expect(codes(vancouver)).toEqual(['accepted', undefined]);
    expect(mended({ ...vancouver, longitude: '123.12' })).toEqual(vancouver);
    expect(reason({ ...vancouver, latitude: '43.7', longitude: '-79.4' }).says).toBe(
      'latitude 43.7 lies far outside BC. Correct the coordinates or the postal code.',
    );
  });
});

describe('coordinates that cannot be used', () => {
  test('0/0 with a postal code: leaving both empty is offered, with how far off that may be', () => {
    const cells = { latitude: '0', longitude: '0.000', postal_code: '10001' };
    expect(reason(cells).code).toBe('zero-coordinates');
    expect(mendFor(cells)).toEqual({
      says: 'Leave latitude and longitude empty: postal code 10001 places the building within about 1 km',
      cells: { latitude: '', longitude: '' },
    });
    const { source, km } = accepted(mended(cells));
    expect([source, km]).toEqual(['postal centroid', postal.find('10001')!.radiusKm]);
  });

  test.each<Cells>([
    { latitude: '0', longitude: '0' },
    { latitude: '0', longitude: '0', postal_code: '00000' },
    { latitude: '0', longitude: '0', region: 'WA', postal_code: '33101' },
    { latitude: '0', longitude: '0', postal_code: '2134' },
  ])('%j: nothing is offered where the code could not place it', (cells) => {
    expect(reason(cells).code).toBe('zero-coordinates');
    expect(reason(cells).mend).toBeUndefined();
  });

  test('words, and numbers off the globe, are offered the postal code too', () => {
    const words = { latitude: 'north', longitude: '-122.3', region: 'WA', postal_code: '98109' };
    expect(accepted(mended(words)).source).toBe('postal centroid');
    const off = { latitude: '147.6', longitude: '-122.3', region: 'WA', postal_code: '98109' };
    expect(reason(off).code).toBe('latitude-range');
    expect(accepted(mended(off)).source).toBe('postal centroid');
  });

  test('without region and postal code only what is unmistakable counts as swapped', () => {
    const swapped = { latitude: '-122.3', longitude: '47.6' };
    expect(reason(swapped).code).toBe('swapped');
    expect(mendFor(swapped).says).toBe('Exchange latitude and longitude');
    expect(mended(swapped)).toEqual(seattle);
    expect(mended({ latitude: '-74', longitude: '40.7' })).toEqual({
      latitude: '40.7',
      longitude: '-74',
    });
    expect(codes({ latitude: '47.6', longitude: '122.3' })).toEqual(['accepted', undefined]);
    expect(codes({ latitude: '-33.9', longitude: '18.4' })).toEqual(['accepted', undefined]);
    expect(codes({ latitude: '-54.8', longitude: '-68.3' })).toEqual(['accepted', undefined]);
    expect(reason({ latitude: '122.3', longitude: '47.6' })).toMatchObject({
      code: 'latitude-range',
    });
    expect(reason({ latitude: '47608013', longitude: '-122.3' }).mend).toBeUndefined();
  });

  test('swapped for certain but not of this region: said, and not offered', () => {
    const cells = { latitude: '-74', longitude: '40.7', region: 'WA' };
    expect(reason(cells).code).toBe('swapped');
    expect(reason(cells).mend).toBeUndefined();
  });

  test('a longitude counted from 0 to 360 is offered from -180 to 180 where the region confirms it', () => {
    const cells = { latitude: '47.6', longitude: '237.7', region: 'WA' };
    expect(reason(cells).code).toBe('longitude-range');
    expect(mended(cells)).toEqual({ ...seattle, region: 'WA' });
    expect(reason({ ...cells, region: 'FL' }).mend).toBeUndefined();
  });
});

describe('letters of hemispheres', () => {
  test('in the cell of the other coordinate they show that the two are swapped, whatever else is known', () => {
    const cells = { latitude: '18.4 E', longitude: '33.9 S' };
    expect(reason(cells).code).toBe('swapped');
    expect(accepted(mended(cells))).toMatchObject({ latitude: -33.9, longitude: 18.4 });
    expect(mended({ latitude: '122.3 W', longitude: '47.6', region: 'WA' })).toMatchObject({
      latitude: '47.6',
      longitude: '122.3 W',
    });
  });

  test('the wrong one is a sign lost, mended in the same notation', () => {
    const cells = { latitude: "47°36' N", longitude: "122°18' E", region: 'WA' };
    expect(reason(cells).code).toBe('minus-missing');
    expect(mendFor(cells)).toEqual({
      says: 'Change the sign of the longitude',
      cells: { longitude: "122°18' W" },
    });
    expect(accepted(mended(cells)).longitude).toBeCloseTo(-122.3, 9);
  });

  test('two latitudes are no place', () => {
    expect(reason({ latitude: '47.6 N', longitude: '22.3 S' })).toMatchObject({
      column: 'longitude',
      code: 'one-axis',
    });
  });
});

describe('sentences', () => {
  test.each<[Cells, string]>([
    [
      { latitude: '47.6', longitude: '122.3', postal_code: '98109' },
      'longitude 122.3 lies far from postal_code "98109": is the minus sign missing? Longitudes in North America are negative.',
    ],
    [
      { latitude: '-47.6', longitude: '-122.3', region: 'WA' },
      'latitude -47.6 lies far outside WA: is there a minus sign too many? Write 47.6.',
    ],
    [
      { latitude: '-47.6', longitude: '122.3', region: 'WA' },
      'latitude -47.6 and longitude 122.3 seem mistyped. Write latitude 47.6 and longitude -122.3.',
    ],
    [
      { latitude: '122.3', longitude: '47.6', region: 'WA' },
      'latitude and longitude look swapped (122.3 and 47.6) and mistyped. Write latitude 47.6 and longitude -122.3.',
    ],
    [
      { latitude: '47608013', longitude: '-122.3', region: 'WA' },
      'latitude "47608013" has lost its decimal point, it seems. Write decimal degrees: 47.608013.',
    ],
    [
      { latitude: '47.6', longitude: '237.7', region: 'WA' },
      'longitude "237.7" is not between -180 and 180. Write decimal degrees such as -122.33.',
    ],
  ])('%j', (cells, sentence) => expect(reason(cells).says).toBe(sentence));
});

test('coordinates have no reach of their own, a postal code has', () => {
  expect(accepted(seattle).km).toBeNaN();
  expect(accepted({ postal_code: '98109' }).km).toBe(postal.find('98109')!.radiusKm);
});

// Places from memory of the US Geological Survey's list of names (GNIS), to 0.1°.
describe('buildings beyond 180° (Alaska)', () => {
  test.each([
    ['Attu Station', '52.8', '173.2'],
    ['Shemya', '52.7', '174.1'],
    ['Adak', '51.9', '-176.7'],
  ])('%s stands in its state, without a word', (_, latitude, longitude) => {
    expect(codes({ latitude, longitude, region: 'AK' })).toEqual(['accepted', undefined]);
  });

  test('a latitude far from it is still the axis that is complained of', () => {
    const { column, code } = reason({ latitude: '12.1', longitude: '174.1', region: 'AK' });
    expect([column, code]).toEqual(['latitude', 'outside-region']);
  });
});

describe('the region of a building without one', () => {
  const regionOf = (cells: Cells) => {
    const { region, regionSource, country } = accepted(cells);
    return [region?.code ?? null, regionSource, country];
  };

  test('comes from its postal code, with coordinates or without', () => {
    expect(regionOf({ postal_code: '97201' })).toEqual(['OR', 'postal code', 'US']);
    expect(regionOf({ ...seattle, postal_code: '98109' })).toEqual(['WA', 'postal code', 'US']);
    expect(regionOf({ latitude: '42.4', longitude: '-71.1', postal_code: '2134' })).toEqual([
      'MA',
      'postal code',
      'US',
    ]);
    const vancouver = { latitude: '49.28', longitude: '-123.12', postal_code: 'V6B 1A1' };
    expect(regionOf(vancouver)).toEqual(['BC', 'postal code', 'CA']);
  });

  test('a region on record stands, whether it is known to us or not', () => {
    expect(regionOf({ ...seattle, region: 'WA', postal_code: '99201' })[1]).toBe('record');
    expect(regionOf({ ...seattle, region: 'Cascadia', postal_code: '98109' })).toEqual([
      null,
      'record',
      'US',
    ]);
  });

  test('stays blank where the code names none, or one far from the coordinates', () => {
    expect(regionOf(seattle)).toEqual([null, null, null]);
    expect(regionOf({ postal_code: '00801' })).toEqual([null, null, 'US']);
    const berlin = { latitude: '52.52', longitude: '13.4' };
    expect(regionOf({ ...berlin, postal_code: '99998' })).toEqual([null, null, null]);
    // A code of New York between listed ones, at a building in Seattle.
    expect(postal.find('10091')).toBeNull();
    expect(regionOf({ ...seattle, postal_code: '10091' })).toEqual([null, null, 'US']);
  });

  test('every listed code names the region that its line gives, at its centre', () => {
    const wrong = vega('zipcodes.csv')
      .filter(({ zip_code, state }) => postal.find(zip_code!) && findRegion(state!))
      .filter(({ zip_code, state }) => regionOf({ postal_code: zip_code! })[0] !== state);
    expect(wrong).toEqual([]);
  });
});
