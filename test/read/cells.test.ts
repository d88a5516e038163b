import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isBlank, numberReader, textReader } from '../../analysis/read/cells.ts';
import { readNumber } from '../../analysis/read/number-text.ts';
import type { NumberKind, TextKind } from '../../analysis/read/schema.ts';

const reading = { asOf: 2026, decimalComma: false };
const readAs = (kind: NumberKind, text: string): number => numberReader(kind, reading)(text);
const textAs = (kind: TextKind, name: string, text: string): string | null =>
  textReader({ name, kind }, reading)(text);

describe('blanks', () => {
  test.each([
    '',
    '-',
    '--',
    '?',
    'n/a',
    'N/A',
    'NA',
    'na',
    'none given',
    'Unknown',
    'UNK',
    'tbd',
    'not known',
    'NULL',
    '#N/A',
  ])('%j is no record', (text) => expect(isBlank(text)).toBe(true));
  test.each(['none', '0', 'no', 'NaN', 'N', 'unknown wrap', 'Tbilisi', '---'])(
    '%j is a value',
    (text) => expect(isBlank(text)).toBe(false),
  );
});

describe('numbers', () => {
  test('any finite number reads as JavaScript writes it (property)', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        // Adding 0 makes −0, which is written 0, plain 0.
        expect(readNumber(String(value), false)).toBe(value + 0);
      }),
      { seed: 1, numRuns: 2000 },
    );
  });

  test('thousands separators of American, Swiss, French and German writing read alike (property)', () => {
    const written = fc.integer({ min: -1e12, max: 1e12 }).map((cents) => cents / 100);
    fc.assert(
      fc.property(written, (value) => {
        const as = (locale: string) => value.toLocaleString(locale, { maximumFractionDigits: 2 });
        expect(readNumber(as('en-US'), false)).toBe(value);
        expect(readNumber(as('de-CH'), false)).toBe(value);
        expect(readNumber(as('fr-FR'), true)).toBe(value);
        if (/,/.test(as('de-DE'))) expect(readNumber(as('de-DE'), true)).toBe(value);
      }),
      { seed: 2, numRuns: 1000 },
    );
  });

  test.each([
    ['1,250', false, 1250],
    ['1,250,000.50', false, 1_250_000.5],
    ['1 250', false, 1250],
    ["1'250", false, 1250],
    ['−122.3', false, -122.3],
    ['1.5e3', false, 1500],
    ['.5', false, 0.5],
    ['5.', false, 5],
    ['12,5', true, 12.5],
    ['1,250', true, 1.25],
    ['1.250,5', true, 1250.5],
    ['1.250.000', true, 1_250_000],
    ['1,250,000', true, 1_250_000],
    ['47.6', true, 47.6],
    ['1.250.000', false, 1_250_000],
    ['1.250,5', false, 1250.5],
    ['1\u2009250,5', false, 1250.5],
    ['1\u202f250\u202f000', true, 1_250_000],
    ['1’250.5', true, 1250.5],
    ['1,250.5', true, 1250.5],
  ])('%j (decimal comma %s) is %d', (text, decimalComma, value) => {
    expect(readNumber(text, decimalComma)).toBe(value);
  });

  test.each([
    '12,5',
    '1,25',
    '1,2500',
    ',5',
    '1,250,00',
    'NaN',
    'Infinity',
    '-Infinity',
    '1e999',
    '0x10',
    '1_000',
    '12 ft',
    '1/2',
    '--5',
    'e5',
    '(5)',
    '1e',
    '.',
    '１２',
  ])('%j is no number', (text) => expect(readNumber(text, false)).toBeNaN());

  test.each([
    '$1,250',
    'US$ 1250',
    'C$1250',
    'CAD 1,250',
    'USD$1,250',
    '€1250',
    '£ 1 250',
    '1250.00',
  ])('%j is an amount', (text) => expect(readAs('money', text)).toBe(1250));

  test('a sign of a unit is left out only where the column has that unit', () => {
    expect(readAs('percent', '90 %')).toBe(90);
    expect(readAs('degrees', '47.6°')).toBe(47.6);
    expect(readAs('number', '90 %')).toBeNaN();
    expect(readAs('number', '$90')).toBeNaN();
  });

  test('a page of text is no number, found out without searching it', () => {
    const page = `5${' '.repeat(900_000)}x`;
    expect(readAs('percent', page)).toBeNaN();
    expect(readAs('money', `$${page}`)).toBeNaN();
  });

  test('a year is a whole number', () => {
    expect(readAs('year', '1998')).toBe(1998);
    expect(readAs('year', '1998.0')).toBe(1998);
    expect(readAs('year', '1998.5')).toBeNaN();
    expect(readAs('year', '1990s')).toBeNaN();
  });
});

describe('azimuths', () => {
  const points = 'N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW'.split(' ');

  test('the 16 points of the compass stand 22.5 degrees apart, clockwise from north', () => {
    expect(points.map((point) => readAs('azimuth', point))).toEqual(points.map((_, i) => 22.5 * i));
    expect(points.map((point) => readAs('azimuth', point.toLowerCase()))).toEqual(
      points.map((_, i) => 22.5 * i),
    );
  });

  test.each([
    ['360', 0],
    ['0', 0],
    ['22.5', 22.5],
    ['359.9', 359.9],
    ['45°', 45],
    ['North-West', 315],
  ])('%j is %d', (text, value) => expect(readAs('azimuth', text)).toBe(value));

  test.each(['361', '-10', 'front', 'NEE'])('%j is no direction', (text) =>
    expect(readAs('azimuth', text)).toBeNaN(),
  );
});

describe('dates', () => {
  test.each([
    ['2019', '2019-01-01'],
    ['2019-05', '2019-05-01'],
    ['2019-05-31', '2019-05-31'],
    ['2024-02-29', '2024-02-29'],
    ['2000-02-29', '2000-02-29'],
    ['2026-12-31', '2026-12-31'],
    ['2026-07-01T14:30:00', '2026-07-01'],
    ['7/31/2024', '2024-07-31'],
    ['31.7.2024', '2024-07-31'],
    ['5 Mar 2020', '2020-03-05'],
    ['March 5, 2020', '2020-03-05'],
  ])('%j is %s', (text, date) => expect(textAs('date', 'recorded_on', text)).toBe(date));

  test.each([
    '2019-02-29',
    '1900-02-29',
    '2019-13',
    '2019-00-10',
    '2019-04-31',
    '2019-5-1',
    '2027',
    '1500',
    'May 2019',
    '43615',
    '3/4/2020',
    '5 Foo 2020',
    '31/31/2020',
  ])('%j is not', (text) => expect(textAs('date', 'recorded_on', text)).toBeNull());

  test('every day of the calendar is read as it stands (property)', () => {
    const days = fc.date({
      min: new Date('1600-01-01'),
      max: new Date('2026-12-31'),
      noInvalidDate: true,
    });
    fc.assert(
      fc.property(days, (day) => {
        const text = day.toISOString().slice(0, 10);
        expect(textAs('date', 'recorded_on', text)).toBe(text);
      }),
      { seed: 3, numRuns: 1000 },
    );
  });
});

describe('words', () => {
  test.each([
    ['material', 'E.I.F.S.', 'eifs'],
    ['material', 'Exterior Insulation & Finish System', 'eifs'],
    ['material', 'Portland Cement Plaster', 'stucco'],
    ['material', 'Hard-coat', 'stucco'],
    ['material', 'STUCCO (3-coat)', 'stucco'],
    ['material', 'One-coat stucco', 'one_coat_stucco'],
    ['material', 'one_coat_stucco', 'one_coat_stucco'],
    ['material', 'Manufactured  Stone', 'adhered_stone'],
    ['material', 'brick veneer', 'anchored_brick'],
    ['material', 'Fibre-cement', 'fiber_cement'],
    ['drainage', '2 layers Grade D', 'double_paper'],
    ['drainage', 'double paper', 'double_paper'],
    ['drainage', 'None', 'none'],
    ['drainage', 'Rain-screen', 'furred_cavity'],
    ['sheathing', 'OSB', 'osb'],
    ['sheathing', 'ply', 'plywood'],
    ['sheathing', 'CMU', 'masonry'],
    ['roof', 'Flat', 'low'],
    ['roof', 'pitched', 'steep'],
    ['leak_history', 'none', 'none'],
    ['construction_type', 'Type V-B', 'V'],
    ['construction_type', 'iii', 'III'],
    ['use', 'Single-family', 'house'],
    ['source', 'As-built', 'drawing'],
  ])('%s %j is %s', (column, text, value) => {
    expect(textAs('vocabulary', column, text)).toBe(value);
  });

  test.each([
    ['terrain', 'suburban'],
    ['terrain', 'constructor'],
    ['construction_type', '5'],
    ['construction_type', 'wood frame'],
    ['use', 'condo'],
    ['leak_history', 'resolved'],
    ['drainage', 'house wrap'],
  ])('%s %j is not guessed', (column, text) => {
    expect(textAs('vocabulary', column, text)).toBeNull();
  });

  test.each([
    ['4A', '4A'],
    ['4-c', '4C'],
    ['Zone 5 b', '5B'],
    ['4C (Marine)', '4C'],
    ['climate zone 7', '7'],
    ['CZ3A', '3A'],
  ])('climate zone %j is %s', (text, zone) =>
    expect(textAs('zone', 'climate_zone', text)).toBe(zone),
  );

  test.each(['9A', '4D', 'A4', 'marine'])('climate zone %j is none', (text) =>
    expect(textAs('zone', 'climate_zone', text)).toBeNull(),
  );

  test('a currency is three letters or says which dollar', () => {
    expect(textAs('currency', 'currency', 'usd')).toBe('USD');
    expect(textAs('currency', 'currency', 'CA$')).toBe('CAD');
    expect(textAs('currency', 'currency', '$')).toBeNull();
  });

  test('yes and no have many spellings', () => {
    expect(['Y', 'yes', 'TRUE', '1', 'x'].map((t) => textAs('yes_no', 'runoff', t))).toEqual(
      Array(5).fill('yes'),
    );
    expect(['N', 'no', 'False', '0'].map((t) => textAs('yes_no', 'runoff', t))).toEqual(
      Array(4).fill('no'),
    );
    expect(textAs('yes_no', 'runoff', 'partly')).toBeNull();
  });
});
