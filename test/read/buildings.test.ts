import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { numbers, rowObject, texts } from '../../analysis/columns.ts';
import { readBuildings } from '../../analysis/read/buildings.ts';
import { buildingColumns } from '../../analysis/read/schema.ts';
import { asOf, buildings, lines, postal, sourceOf } from './sources.ts';

const head = 'building_id,latitude,longitude';

describe('the building list', () => {
  test('a full row is read into every column of the contract', async () => {
    const read = await buildings(
      lines(
        'Building ID,name,address,city,Region,postal-code,Latitude,LONGITUDE,year_built,reclad_year,storeys,height_m,use,construction_type,terrain,roof,climate_zone,moisture_index,hdd18_c,mean_temp_c,insured_value,currency,wall_area_m2,building_count,leak_history,overhang_mm,distance_to_coast_km,obstruction_m,Policy key',
        'B-1,Heron Court,"12 Alder St, rear",Seattle,Washington,98101,47.61,-122.33,1987,2004,3,9.5,Multi-family,V-B,Exposed,Flat,4c,1.1,2600,11.5,"$4,250,000",usd,"1,250",2,Leak,300,4,25,PK-7',
      ),
    );
    expect(rowObject(read.table, 0)).toEqual({
      building_id: 'B-1',
      name: 'Heron Court',
      address: '12 Alder St, rear',
      city: 'Seattle',
      region: 'Washington',
      postal_code: '98101',
      latitude: 47.61,
      longitude: -122.33,
      year_built: 1987,
      reclad_year: 2004,
      storeys: 3,
      height_m: 9.5,
      use: 'apartment',
      construction_type: 'V',
      terrain: 'severe',
      roof: 'low',
      climate_zone: '4C',
      moisture_index: 1.1,
      hdd18_c: 2600,
      mean_temp_c: 11.5,
      insured_value: 4_250_000,
      currency: 'USD',
      wall_area_m2: 1250,
      building_count: 2,
      leak_history: 'reported',
      overhang_mm: 300,
      distance_to_coast_km: 4,
      obstruction_m: 25,
      place_source: 'coordinates',
      place_km: null,
      region_source: 'record',
      country: 'US',
      region_code: 'WA',
      marine_possible: 'yes',
      row: 2,
    });
    expect(rowObject(read.extra, 0)).toEqual({ 'Policy key': 'PK-7' });
    expect(read.noted).toEqual([]);
  });

  test('columns absent from the file are there and hold no record', async () => {
    const { table } = await buildings(lines(head, 'B-1,47.6,-122.3', 'B-2,47.6,-122.3'));
    expect(Object.keys(table.cols)).toEqual([...buildingColumns.map(({ name }) => name), 'row']);
    expect(texts(table, 'terrain')).toEqual([null, null]);
    expect([...numbers(table, 'storeys')]).toEqual([Number.NaN, Number.NaN]);
    for (const column of Object.values(table.cols)) expect(column).toHaveLength(2);
  });

  test('words that say there is no record leave the cell empty without a note', async () => {
    const { table, noted } = await buildings(
      lines(
        `${head},year_built,terrain,leak_history`,
        'B-1,47.6,-122.3,unknown,TBD,none',
        'B-2,47.6,-122.3,,-,n/a',
      ),
    );
    expect([...numbers(table, 'year_built')]).toEqual([Number.NaN, Number.NaN]);
    expect(texts(table, 'terrain')).toEqual([null, null]);
    expect(texts(table, 'leak_history')).toEqual(['none', null]);
    expect(noted).toEqual([]);
  });

  test('fewer cells than headings are blanks, surplus blank cells are nothing', async () => {
    const { table, setAside } = await buildings(
      lines(`${head},name,storeys`, 'B-1,47.6,-122.3', 'B-2,47.6,-122.3,x,4,,,'),
    );
    expect(texts(table, 'name')).toEqual([null, 'x']);
    expect(setAside).toEqual([]);
  });

  test('a short code that elsewhere says no record may be an identifier', async () => {
    const { table } = await buildings(lines('building_id,latitude,longitude', 'UNK,63.88,-160.8'));
    expect(texts(table, 'building_id')).toEqual(['UNK']);
  });

  test('unknown headings are kept as text, repeated and blank ones under names of their own', async () => {
    const { extra } = await buildings(
      lines(
        `${head},Key,key,,2019,__proto__,`,
        'B-1,47.6,-122.3,a,b,c,n/a,e,',
        'B-2,47.6,-122.3,,,,,,',
      ),
    );
    expect(new Map(Object.entries(extra.cols))).toEqual(
      new Map([
        ['Key', ['a', null]],
        ['key (2)', ['b', null]],
        ['column_6', ['c', null]],
        ['2019', ['n/a', null]],
        ['__proto__', ['e', null]],
      ]),
    );
    expect(extra.n).toBe(2);
  });

  test('sixteen thousand columns of one heading get names of their own', async () => {
    const content = lines(`${head}${',Key'.repeat(16_000)},key (2)`, 'B-1,47.6,-122.3');
    const names = Object.keys((await buildings(content)).extra.cols);
    expect(names.slice(0, 3)).toEqual(['Key', 'Key (2)', 'Key (3)']);
    expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(16_001);
  });

  test('an identifier may be used again where its first row was set aside', async () => {
    const read = await buildings(lines(head, 'B-1,0,0', 'B-1,47.6,-122.3', 'B-1,47.6,-122.3'));
    expect([...numbers(read.table, 'row')]).toEqual([3]);
    expect(read.setAside.map(({ row, code }) => [row, code])).toEqual([
      [2, 'zero-coordinates'],
      [4, 'repeat-id'],
    ]);
  });

  test('the first reason wins: identifier, then place, then years', async () => {
    const read = await buildings(
      lines(
        `${head},year_built`,
        'B-1,47.6,-122.3,1990',
        ',0,0,3000',
        'B-2,0,0,3000',
        'B-3,47.6,-122.3,3000',
      ),
    );
    expect(read.setAside.map(({ code }) => code)).toEqual([
      'blank-id',
      'zero-coordinates',
      'after-as-of',
    ]);
  });

  test('a semicolon file has decimal commas', async () => {
    const { table } = await buildings(
      'building_id;latitude;longitude;height_m\nB-1;47,61;-122,33;9,5\n',
    );
    expect(numbers(table, 'latitude')[0]).toBe(47.61);
    expect(numbers(table, 'height_m')[0]).toBe(9.5);
  });
});

describe('places', () => {
  test('a building without coordinates stands at the centre of its US postal code', async () => {
    const { table } = await buildings(
      lines('building_id,postal_code', 'B-1,98101-1234', 'B-2,97201'),
    );
    expect(texts(table, 'place_source')).toEqual(['postal centroid', 'postal centroid']);
    expect(numbers(table, 'latitude')[1]).toBe(postal.find('97201')!.latitude);
    expect(numbers(table, 'longitude')[1]).toBe(postal.find('97201')!.longitude);
    expect(numbers(table, 'place_km')[1]).toBe(postal.find('97201')!.radiusKm);
    expect(texts(table, 'country')).toEqual(['US', 'US']);
    expect(texts(table, 'region_code')).toEqual(['WA', 'OR']);
  });

  test('coordinates count before the postal code', async () => {
    const { table } = await buildings(
      lines(`${head},postal_code`, 'B-1,45.5,-122.6,97201', 'B-2,,,97201'),
    );
    expect(texts(table, 'place_source')).toEqual(['coordinates', 'postal centroid']);
    expect(numbers(table, 'latitude')[0]).toBe(45.5);
    expect(numbers(table, 'place_km')[0]).toBeNaN();
  });

  test('the country comes from the region, else from the form of the postal code, else it is not known', async () => {
    const { table, noted } = await buildings(
      lines(
        `${head},region,postal_code`,
        'B-1,49.28,-123.12,BC,',
        'B-2,49.28,-123.12,,V6B 1A1',
        'B-3,47.6,-122.3,Cascadia,98101',
        'B-4,47.6,-122.3,Cascadia,',
        'B-5,52.52,13.40,,SW1A 1AA',
      ),
    );
    expect(texts(table, 'country')).toEqual(['CA', 'CA', 'US', null, null]);
    expect(texts(table, 'region_code')).toEqual(['BC', 'BC', null, null, null]);
    expect(texts(table, 'marine_possible')).toEqual(['yes', 'yes', null, null, null]);
    expect(texts(table, 'region')[2]).toBe('Cascadia');
    expect(noted).toEqual([]);
  });

  test('a blank region is filled from the postal code and flagged; one on record stays as written', async () => {
    const { table, notes } = await buildings(
      lines('building_id,postal_code', 'B-1,98101', 'B-2,00801', 'B-3,02134'),
    );
    expect(texts(table, 'region')).toEqual(['WA', null, 'MA']);
    expect(texts(table, 'region_source')).toEqual(['postal code', null, 'postal code']);
    expect(notes).toEqual([
      'The region of 2 buildings is blank and read from their postal codes; region_source says of which.',
    ]);
    const given = await buildings(
      lines('building_id,region,postal_code', 'B-1,Washington,98101', 'B-2,,97201', 'B-3,,00801'),
    );
    expect(texts(given.table, 'region')).toEqual(['Washington', 'OR', null]);
    expect(texts(given.table, 'region_source')).toEqual(['record', 'postal code', null]);
  });

  test('a likely slip is set aside with its mend, a postal code far off is noted', async () => {
    const { table, setAside, noted } = await buildings(
      lines(
        `${head},region,postal_code`,
        'B-1,-122.3,47.6,WA,',
        'B-2,47.6,122.3,,98109',
        'B-3,0,0,,98109',
        'B-4,47.6,-122.3,WA,99201',
      ),
    );
    expect(setAside.map(({ code, mend }) => [code, mend?.cells])).toEqual([
      ['swapped', { latitude: '47.6', longitude: '-122.3' }],
      ['minus-missing', { longitude: '-122.3' }],
      ['zero-coordinates', { latitude: '', longitude: '' }],
    ]);
    expect(noted.map(({ row, code }) => [row, code])).toEqual([[5, 'far-from-postal-code']]);
    expect(texts(table, 'building_id')).toEqual(['B-4']);
  });

  test('degrees and minutes, and letters of the hemisphere, are coordinates', async () => {
    const { table } = await buildings(
      lines(head, `B-1,47°36' N,122°18' W`, 'B-2,47.6 N,122.3 W', 'B-3,N47.6,-122.3'),
    );
    expect([...numbers(table, 'latitude')]).toEqual([47.6, 47.6, 47.6]);
    expect([...numbers(table, 'longitude')]).toEqual([-122.3, -122.3, -122.3]);
  });

  test('without a list of postal codes only coordinates place a building', async () => {
    const source = sourceOf(
      'a.csv',
      lines(`${head},postal_code`, 'B-1,47.6,-122.3,', 'B-2,,,98101'),
    );
    const read = await readBuildings(source, { asOf });
    expect(read.setAside.map(({ code }) => code)).toEqual(['no-place']);
  });
});

describe('nothing is lost', () => {
  const cell = fc.oneof(
    fc.constantFrom(
      'B-1',
      'B-2',
      'B-3',
      '47.6',
      '-122.3',
      '0',
      '98101',
      'WA',
      'FL',
      '1990',
      '2031',
      'stucco',
    ),
    fc.constantFrom('', ' ', 'n/a', '1e999', 'NaN', '"a, b"', '"a\nb"', '"a ""b"""', '-5', '300'),
    fc.string({ unit: fc.constantFrom('a', '7', '.', '-', 'é', ';', '\t', "'"), maxLength: 5 }),
  );
  const headings = 'building_id,latitude,longitude,postal_code,region,year_built,storeys,use,note';

  test('accepted + set aside = rows, each row once (property)', async () => {
    const rows = fc.array(fc.array(cell, { minLength: 1, maxLength: 11 }), { maxLength: 40 });
    await fc.assert(
      fc.asyncProperty(rows, async (dirty) => {
        const blank = (cells: readonly string[]) => cells.every((text) => text.trim() === '');
        const content = lines(
          headings,
          'B-0,47.6,-122.3',
          ...dirty.map((cells) => cells.join(',')),
        );
        const read = await buildings(content);
        const expected = dirty.flatMap((cells, i) => (blank(cells) ? [] : [i + 3]));
        const seen = [...numbers(read.table, 'row'), ...read.setAside.map(({ row }) => row)];
        expect(seen.sort((a, b) => a - b)).toEqual([2, ...expected]);
        expect(read.rowsRead).toBe(expected.length + 1);
        const ids = texts(read.table, 'building_id');
        expect(new Set(ids).size).toBe(read.table.n);
      }),
      { seed: 77, numRuns: 500 },
    );
  });

  test('what is accepted has an identifier, a place on the globe, and years in order (property)', async () => {
    const rows = fc.array(fc.array(cell, { minLength: 3, maxLength: 9 }), { maxLength: 40 });
    await fc.assert(
      fc.asyncProperty(rows, async (dirty) => {
        const { table } = await buildings(
          lines(headings, 'B-0,47.6,-122.3', ...dirty.map((cells) => cells.join(','))),
        );
        for (let row = 0; row < table.n; row += 1) {
          const { building_id, latitude, longitude, year_built } = rowObject(table, row);
          expect(building_id).toBeTruthy();
          expect(Math.abs(latitude as number)).toBeLessThanOrEqual(90);
          expect(Math.abs(longitude as number)).toBeLessThanOrEqual(180);
          if (year_built !== null) expect(year_built).toBeLessThanOrEqual(asOf);
        }
      }),
      { seed: 78, numRuns: 200 },
    );
  });
});
