import { describe, expect, test } from 'vitest';
import { guessMap } from '../../analysis/mapping/guess.ts';
import { mapFor, sameHeadings } from '../../analysis/mapping/kept.ts';
import { mapsText, readMaps } from '../../analysis/mapping/maps-file.ts';
import { Refusal } from '../../analysis/read/outcome.ts';
import { sheet } from './sheets.ts';

const { map } = guessMap(
  sheet('Bldg ID|Zip|Height (ft)|N elev material|S elev material|Gate', '1|98101|35|Stucco|EIFS|a'),
  'buildings',
);
const headings = map.columns.map(({ heading }) => heading);

describe('a kept map', () => {
  test('is used again for a file with the same headings, in any order and case', () => {
    expect(sameHeadings(map, headings)).toBe(true);
    expect(sameHeadings(map, [...headings].reverse())).toBe(true);
    expect(mapFor([map], headings)).toEqual(map);
    const turned = mapFor([map], headings.map((heading) => ` ${heading.toUpperCase()} `).reverse());
    expect(turned!.columns).toEqual([...map.columns].reverse());
  });

  test('is not used for a file with one heading more, less or other', () => {
    expect(mapFor([map], [...headings, 'Roof'])).toBeNull();
    expect(mapFor([map], headings.slice(1))).toBeNull();
    expect(mapFor([map], ['Bldg No', ...headings.slice(1)])).toBeNull();
    const twice = { ...map, columns: [map.columns[0]!, map.columns[0]!, map.columns[1]!] };
    expect(sameHeadings(twice, ['Bldg ID', 'Zip', 'Zip'])).toBe(false);
  });

  test('yields to an earlier one of the list', () => {
    const other = { ...map, words: { material: { x: 'stucco' } } };
    expect(mapFor([other, map], headings)).toEqual(other);
  });

  test('is the same after it is written and read', () => {
    const worded = { ...map, words: { material: { 'synth. stucco': 'eifs', '??': null } } };
    expect(readMaps(mapsText([map, worded]), 'maps.json')).toEqual([map, worded]);
    expect(readMaps(JSON.stringify(map), 'map.json')).toEqual([map]);
  });

  test('may leave out what is absent', () => {
    const short = {
      shape: 'buildings',
      columns: [
        { heading: 'Ref', fills: { table: 'building', column: 'building_id' } },
        { heading: 'Note' },
      ],
    };
    expect(readMaps(JSON.stringify(short), 'map.json')).toEqual([
      {
        shape: 'buildings',
        columns: [
          {
            heading: 'Ref',
            fills: { table: 'building', column: 'building_id' },
            unit: null,
            wall: null,
          },
          { heading: 'Note', fills: null, unit: null, wall: null },
        ],
        groups: [],
        words: {},
      },
    ]);
  });

  const column = (more: object) => ({
    shape: 'buildings',
    columns: [{ heading: 'H', fills: { table: 'building', column: 'height_m' }, ...more }],
  });

  test.each([
    ['{', 'is not a file of column maps'],
    ['[]', 'holds no column map'],
    ['7', 'It must be a JSON object'],
    [JSON.stringify({ shape: 'list' }), 'the shape "list" is not known. Use one of: buildings'],
    [JSON.stringify({ shape: 'walls', columns: [] }), '"columns" lists no column'],
    [JSON.stringify({ shape: 'walls', columns: [{}] }), 'column 1 has no heading'],
    [JSON.stringify(column({ fills: { table: 'roof', column: 'x' } })), 'column 1 ("H") fills'],
    [
      JSON.stringify(column({ fills: { table: 'building', column: 'place_source' } })),
      'building column "place_source", which is not known. Use one of: building_id',
    ],
    [
      JSON.stringify(column({ unit: 'F' })),
      'in which height_m is not given. Use null or one of: m, ft',
    ],
    [JSON.stringify(column({ wall: 'north' })), 'belongs to the wall "north"'],
    [
      JSON.stringify({ ...column({}), words: { material: { x: 'straw' } } }),
      'reads "x" as material "straw", which is not known',
    ],
    [JSON.stringify({ ...column({}), words: { colour: {} } }), '"words" names "colour"'],
    [JSON.stringify({ ...column({}), groups: [{ says: {} }] }), 'is no group'],
    [
      JSON.stringify({ ...column({}), groups: [{ wall: 'a', says: { slope: '1' } }] }),
      'says "slope": "1"',
    ],
    [
      JSON.stringify({
        ...column({}),
        columns: [...column({}).columns, { ...column({}).columns[0], heading: 'G' }],
      }),
      '"H" and "G" both fill height_m',
    ],
  ])('%s is refused with a sentence', (text, sentence) => {
    const reading = () => readMaps(text, 'maps.json');
    expect(reading).toThrow(Refusal);
    expect(reading).toThrow(sentence);
    expect(reading).toThrow('maps.json');
  });
});
