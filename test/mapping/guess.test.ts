import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { GuessedMap, SheetSample } from '../../analysis/mapping/column-map.ts';
import { guessMap } from '../../analysis/mapping/guess.ts';
import { buildingColumns, wallColumns } from '../../analysis/read/schema.ts';
import { sheet, told } from './sheets.ts';

const ownNames = (rules: typeof buildingColumns): string[] =>
  rules.flatMap(({ name, derived }) => (derived ? [] : [name]));

/** Columns of an invented sheet with much that could be mistaken for something else. */
const columns: readonly (readonly string[])[] = [
  ['Loc #', '1', '2', '3', '4'],
  ['Bldg Name', 'Larch', 'Fir', 'Larch', 'Yew'],
  ['Zip', '98101', '98102', '98103', '98104'],
  ['Y', '47.60111', '47.60222', '47.60333', '47.60444'],
  ['X', '-122.33111', '-122.33222', '-122.33333', '-122.33444'],
  ['Yr Blt', '1990', '1991', '1992', '1993'],
  ['Year Reclad', '', '2008', '', ''],
  ['Floors', '3', '4', '3', '12'],
  ['Height', '33', '45', '31', '130'],
  ['TIV ($000)', '1,200', '900', '4,000', '800'],
  ['Building Value', '1,100', '800', '3,000', '700'],
  ['N elev material', 'Stucco', 'EIFS', 'Brick', 'Stucco'],
  ['S elev material', 'Stucco', '', 'Brick', 'EIFS'],
  ['N elev SF', '900', '800', '1000', '4000'],
  ['Substrate', 'OSB', 'OSB', 'Plywood', 'OSB'],
  ['', 'a', 'b', 'a', 'b'],
  ['Remarks', 'see file', '', '', 'gate code'],
  ['Occupancy', 'Apartments', 'Office', 'Hotel', 'Retail'],
  ['col9', 'WA', 'OR', 'WA', 'WA'],
  ['Owner Name', 'Trust A', 'Trust B', 'Trust C', 'Trust D'],
];

const sampleOf = (all: readonly (readonly string[])[]): SheetSample => ({
  file: 'list.csv',
  headings: all.map(([heading]) => heading!),
  rows: [1, 2, 3, 4].map((row) => all.map((column) => column[row]!)),
  decimalComma: false,
});

const fillsOf = ({ map, guesses }: GuessedMap) =>
  map.columns
    .map(({ heading, fills, unit, wall }, i) => ({ heading, fills, unit, wall, ...guesses[i]! }))
    .sort((a, b) => (a.heading < b.heading ? -1 : 1));

const some = fc.shuffledSubarray([...columns], { minLength: 3 });
const wanted = fc.constantFrom('buildings', 'walls', 'any');

describe('a guess', () => {
  test('does not depend on the order of the columns', () => {
    fc.assert(
      fc.property(
        fc.shuffledSubarray([...columns], { minLength: columns.length }),
        wanted,
        (shuffled, table) => {
          const plain = guessMap(sampleOf(columns), table);
          const other = guessMap(sampleOf(shuffled), table);
          expect(fillsOf(other)).toEqual(fillsOf(plain));
          expect(other.map.groups).toEqual(plain.map.groups);
          expect(other.unmatched).toEqual(plain.unmatched);
          expect(other.missing).toEqual(plain.missing);
        },
      ),
      { seed: 41, numRuns: 60 },
    );
  });

  test('fills no column of the contract twice, whatever columns there are', () => {
    fc.assert(
      fc.property(some, wanted, (chosen, table) => {
        const { map, guesses } = guessMap(sampleOf(chosen), table);
        const filled = map.columns.flatMap(({ fills, wall }) =>
          fills ? [`${fills.table}.${fills.column}.${wall}`] : [],
        );
        expect(new Set(filled).size).toBe(filled.length);
        expect(map.columns.map(({ heading }) => heading)).toEqual(
          chosen.map(([heading]) => heading),
        );
        for (const { confidence } of guesses) expect(confidence).toBeLessThan(1);
      }),
      { seed: 42, numRuns: 60 },
    );
  });

  test('takes the headings of the contract for themselves, with certainty, whatever stands beside them', () => {
    const building = fc.shuffledSubarray(ownNames(buildingColumns), { minLength: 1 });
    fc.assert(
      fc.property(building, some, (names, beside) => {
        const own = [...new Set(['building_id', 'latitude', 'longitude', ...names])];
        const all = [...own.map((name) => [name, '', '', '', '']), ...beside];
        const { map, guesses } = guessMap(sampleOf(all), 'buildings');
        own.forEach((name, i) => {
          expect(map.columns[i]!.fills).toEqual({ table: 'building', column: name });
          expect(map.columns[i]!.unit).toBeNull();
          expect(guesses[i]!.confidence).toBe(1);
        });
      }),
      { seed: 43, numRuns: 60 },
    );
  });

  test('takes the headings of the wall table for themselves where walls are wanted', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(ownNames(wallColumns), { minLength: 1 }), (names) => {
        const { map } = guessMap(sampleOf(names.map((name) => [name, '', '', '', ''])), 'walls');
        expect(map.columns.map(({ fills }) => fills)).toEqual(
          names.map((column) => ({ table: 'wall', column })),
        );
      }),
      { seed: 44, numRuns: 60 },
    );
  });

  test('rests on the values alone where the headings say nothing', () => {
    const cells = [
      ['B-1', '47.61211', '-122.33111', '98101', 'WA', '1987', '3', 'Stucco', 'N', '12 Alder St'],
      ['B-2', '47.62311', '-122.34222', '98102', 'WA', '1999', '4', 'EIFS', 'S', '7 Heron Ave'],
      ['B-3', '45.52011', '-122.67333', '97204', 'OR', '2003', '12', 'Brick', 'E', '80 Moss Rd'],
      ['B-4', '45.53022', '-122.68444', '97204', 'OR', '2003', '3', 'Stucco', 'W', '9 Fern Way'],
    ];
    const headings = cells[0]!.map((_, i) => `col${i + 1}`);
    const { map, missing, guesses } = guessMap(
      { file: 'plain.csv', headings, rows: cells, decimalComma: false },
      'buildings',
    );
    expect(map.shape).toBe('wall rows');
    expect(told(map)).toEqual([
      'col1: building_id',
      'col2: latitude',
      'col3: longitude',
      'col4: postal_code',
      'col5: region',
      'col6: year_built',
      'col7: storeys',
      'col8: material',
      'col9: azimuth_deg',
      'col10: address',
    ]);
    expect(missing).toEqual([]);
    expect(guesses[1]!.why).toBe('values lie between 45.5 and 47.6, as latitudes do');
    for (const { confidence } of guesses) expect(confidence).toBeLessThan(0.9);
  });

  test('says which needed columns nothing fills', () => {
    const { missing } = guessMap(sheet('Colour|Remarks', 'red|a', 'red|a'), 'buildings');
    expect(missing).toEqual([
      'No column of list.csv was found that names each building (building_id). Choose one.',
      'No columns of list.csv were found that say where the buildings stand: latitude and longitude, or postal_code. Choose them.',
    ]);
    expect(guessMap(sheet('Building|Colour', 'A|red'), 'walls').missing).toEqual([
      'No column of list.csv was found that says what the walls are clad with (material). Choose one.',
    ]);
  });

  test('lets a name or address stand in for a missing identifier, and says so', () => {
    const { map, guesses, missing } = guessMap(
      sheet('Site Name|City|ZIP', 'Larch|Kent|98030', 'Fir|Kent|98031'),
      'buildings',
    );
    expect(told(map)).toEqual(['Site Name: building_id', 'City: city', 'ZIP: postal_code']);
    expect(guesses[0]).toEqual({
      confidence: 0.3,
      why: 'no column is named as an identifier, so the name stands in for it',
    });
    expect(missing).toEqual([]);
  });

  test('takes no identifier from values that repeat', () => {
    const { missing } = guessMap(sheet('Site Name|ZIP', 'Larch|98030', 'Larch|98031'), 'buildings');
    expect(missing).toHaveLength(1);
  });

  test('tells feet from metres by the storeys where heights have no unit', () => {
    const { map, guesses } = guessMap(sampleOf(columns), 'buildings');
    const at = columns.findIndex(([heading]) => heading === 'Height');
    expect(map.columns[at]!.unit).toBe('ft');
    expect(guesses[at]!.why).toContain('a storey would be');
  });

  test('makes no walls of frames, fences and other things that have the words of claddings', () => {
    const { map } = guessMap(
      sheet(
        'ID|Zip|Frame|Fence Type|Roof Covering|Garden',
        '1|98101|Wood|Vinyl|Metal|Brick',
        '2|98102|Metal|Wood|Wood|Stucco',
      ),
      'buildings',
    );
    expect(map.shape).toBe('buildings');
    expect(told(map)).toEqual(['ID: building_id', 'Zip: postal_code']);
  });

  test('says that a unit is taken where none is given', () => {
    const { guesses } = guessMap(sheet('ID|Zip|Height', '1|98101|33', '2|98102|45'), 'buildings');
    expect(guesses[2]!.why).toContain('no unit is given, so m is taken');
  });

  test('has no opinion on a sheet without rows but for its headings', () => {
    const { map, missing } = guessMap(sheet('Bldg ID|Zip|Yr Built'), 'buildings');
    expect(told(map)).toEqual(['Bldg ID: building_id', 'Zip: postal_code', 'Yr Built: year_built']);
    expect(missing).toEqual([]);
  });

  test('survives headings that are names of the language', () => {
    const names = ['__proto__', 'constructor', 'toString', 'valueOf', 'hasOwnProperty'];
    const sample = sheet([...names, 'Bldg ID', 'Zip'].join('|'), 'a|b|c|12 constructor|e|1|98101');
    expect(told(guessMap(sample, 'buildings').map)).toEqual([
      'Bldg ID: building_id',
      'Zip: postal_code',
    ]);
  });
});
