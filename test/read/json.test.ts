import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { bytesOf, refusal, utf16 } from './sources.ts';
import { fixture, tableOf, twin } from './tables.ts';

const read = (content: unknown, name = 'a.geojson') =>
  tableOf(
    name,
    typeof content === 'string' || content instanceof Uint8Array
      ? content
      : JSON.stringify(content),
  );

const feature = (geometry: unknown, properties: unknown = {}, more: object = {}) => ({
  type: 'Feature',
  ...more,
  properties,
  geometry,
});
const point = (...coordinates: number[]) => ({ type: 'Point', coordinates });
const collection = (features: readonly unknown[], more: object = {}) => ({
  type: 'FeatureCollection',
  ...more,
  features,
});

describe('points of GeoJSON read as GDAL reads them', () => {
  // GDAL puts X and Y first; here they are the last two columns, under their own names.
  const expected = twin('places.csv').map(([x, y, ...rest], i) =>
    i === 0 ? [...rest, 'longitude', 'latitude'] : [...rest, x!, y!],
  );

  test.each(['places.geojson', 'places.geojsonl'])('%s', async (name) => {
    const { records, rows } = await tableOf(name, fixture(name));
    expect(records).toEqual(expected);
    expect(rows).toEqual([1, 2, 3, 4, 5]);
  });

  test('by the newer standard, to its seven decimals', async () => {
    const name = 'places-rfc7946.geojson';
    expect((await tableOf(name, fixture(name))).records).toEqual(expected);
  });

  test('in UTF-16, and under any name', async () => {
    const text = new TextDecoder().decode(fixture('places.geojson'));
    expect((await tableOf('export.txt', utf16(text, 'little'))).records).toEqual(expected);
  });
});

describe('features', () => {
  test('columns are the names of all in order of appearance; values inside values become JSON', async () => {
    const { records } = await read(
      collection([
        feature(point(-122, 47), { a: 1, b: { c: [1, 2] } }),
        feature(point(-121, 46, 30), { b: null, d: true }),
      ]),
    );
    expect(records).toEqual([
      ['a', 'b', 'd', 'longitude', 'latitude'],
      ['1', '{"c":[1,2]}', '', '-122', '47'],
      ['', '', 'true', '-121', '46'],
    ]);
  });

  test('properties named as the coordinates are kept beside them', async () => {
    const { records } = await read(
      collection([
        feature(point(-122, 47), { latitude: 'x', longitude: 'y', 'latitude (property)': 'z' }),
      ]),
    );
    expect(records[0]).toEqual([
      'latitude (property) (property)',
      'longitude (property)',
      'latitude (property)',
      'longitude',
      'latitude',
    ]);
    expect(records[1]).toEqual(['x', 'y', 'z', '-122', '47']);
  });

  test('a feature’s own id is a column; without geometries there are no coordinates', async () => {
    const { records } = await read(
      collection([feature(null, { id: 5, latitude: 47 }, { id: 'B-1' })]),
    );
    expect(records).toEqual([
      ['id (feature)', 'id', 'latitude'],
      ['B-1', '5', '47'],
    ]);
  });

  test('several points that are one have its coordinates; other geometries none, with a remark', async () => {
    const line = {
      type: 'LineString',
      coordinates: [
        [1, 2],
        [3, 4],
      ],
    };
    const { records, remarks } = await read(
      collection([
        feature({ type: 'MultiPoint', coordinates: [[-122, 47]] }, { a: 1 }),
        feature(
          {
            type: 'MultiPoint',
            coordinates: [
              [-122, 47],
              [0, 0],
            ],
          },
          { a: 2 },
        ),
        feature(line, { a: 3 }),
      ]),
    );
    expect(records.slice(1)).toEqual([
      ['1', '-122', '47'],
      ['2', '', ''],
      ['3', '', ''],
    ]);
    expect(remarks.map(({ row, value, code }) => [row, value, code])).toEqual([
      [3, 'MultiPoint', 'not-a-point'],
      [4, 'LineString', 'not-a-point'],
    ]);
    expect(remarks[1]!.message).toBe(
      'Row 4 of a.geojson: its geometry (LineString) is not one point, so it gives no coordinates. Save the building as a point.',
    );
  });
});

describe('records', () => {
  test('the state capitals of vega-datasets are a table of their records', async () => {
    const bytes = new Uint8Array(
      readFileSync('node_modules/vega-datasets/data/us-state-capitals.json'),
    );
    const capitals = JSON.parse(new TextDecoder().decode(bytes)) as Record<string, unknown>[];
    const { records } = await tableOf('us-state-capitals.json', bytes);
    expect(records).toHaveLength(51);
    expect(records[0]).toEqual(['lon', 'lat', 'state', 'city']);
    expect(records.slice(1)).toEqual(capitals.map((row) => Object.values(row).map(String)));
  });

  test('a record a line', async () => {
    const { records } = await read('{"a": 1}\r\n\r\n{"b": "x"}\n', 'a.ndjson');
    expect(records).toEqual([
      ['a', 'b'],
      ['1', ''],
      ['', 'x'],
    ]);
  });

  test('identifiers keep all their digits', async () => {
    const { records } = await read(
      '[{"id": 12345678901234567890, "x": 0.12345678901234566, "t": "1234567890123456789"}]',
    );
    expect(records[1]).toEqual([
      '12345678901234567890',
      '0.12345678901234566',
      '1234567890123456789',
    ]);
  });

  test('a name such as __proto__ is a column like any other', async () => {
    const { records } = await read('[{"__proto__": 1, "constructor": 2}, {"a": 3}]');
    expect(records).toEqual([
      ['__proto__', 'constructor', 'a'],
      ['1', '2', ''],
      ['', '', '3'],
    ]);
  });
});

describe('a file is refused in words', () => {
  const whole = fixture('places.geojson');
  test.each([
    [
      'cut short',
      whole.slice(0, 500),
      'a.geojson ends in the middle of a record: it was cut short. Copy or export it again.',
    ],
    [
      'a bracket too many',
      '[{"a": 1}]]',
      'a.geojson is not JSON that can be read: a bracket, comma or quotation mark is missing or too many. Export it again.',
    ],
    [
      'a line that is none',
      '{"a": 1}\n{"a": }\n{"a": 2}\n',
      'Line 2 of a.geojson is not JSON. Export the file again.',
    ],
    [
      'the last line cut short',
      '{"a": 1}\n{"a": ',
      'a.geojson ends in the middle of a record: it was cut short. Copy or export it again.',
    ],
    [
      'polygons only',
      fixture('outlines.geojson'),
      'a.geojson holds no points: its features are of the type Polygon. Save the buildings as points, for example the middle of each outline.',
    ],
    [
      'another coordinate system',
      fixture('metres.geojson'),
      'a.geojson has coordinates in another system (urn:ogc:def:crs:EPSG::3857), not degrees of WGS 84. Save it again in WGS 84 (EPSG:4326).',
    ],
    [
      'metres that claim to be degrees',
      collection([feature(point(500_000, 4_649_776))]),
      'a.geojson has coordinates such as 500000, 4649776, which are no degrees. Save it again in WGS 84 (EPSG:4326).',
    ],
    ['no features', collection([]), 'a.geojson is GeoJSON without features. Choose another file.'],
    [
      'a feature that is none',
      collection([feature(null), { a: 1 }]),
      'Feature 2 of a.geojson is none: it has no "type": "Feature". Export the file again.',
    ],
  ])('%s', async (_, content, sentence) => {
    expect(await refusal(read(content))).toBe(sentence);
  });

  test.each([
    ['an empty list', '[]', 'its list is empty'],
    ['a single record', '{"a": {"b": 1}}', 'it holds a single value'],
    ['a list of numbers', '[[1, 2], [3, 4]]', 'its record 1 has no named values'],
    [
      'TopoJSON',
      '{"type": "Topology", "objects": {}}',
      'it is TopoJSON, which holds shapes in a coordinate system of its own',
    ],
    ['a bare geometry', point(1, 2), 'it holds a geometry without properties'],
  ])('%s is no table', async (_, content, why) => {
    expect(await refusal(read(content))).toBe(
      `a.geojson is JSON, but no table: ${why}. What can be read is a list of records, [{"building_id": "B-1", …}, …], or GeoJSON with points.`,
    );
  });

  test('more than 250 MB', async () => {
    const { recordBatches } = await import('../../analysis/read/records.ts');
    const { sourceOf } = await import('./sources.ts');
    const large = { ...sourceOf('a.json', bytesOf('[{"a":1}]')), size: 251e6 };
    expect(await refusal(recordBatches(large).next())).toMatch(/^a\.json is larger than 250 MB\./);
  });
});
