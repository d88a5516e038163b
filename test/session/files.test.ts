import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { memorySource } from '../../analysis/read/memory-source.ts';
import type { Inputs } from '../../analysis/session-types.ts';
import { session } from './open.ts';

const file = (name: string, text: string | Uint8Array) => memorySource(name, text);
const analyst = await session();
const list = 'id,state,lat,lon\nA,WA,47.61,-122.33\nB,WA,47.2,-122.4\n';

const open = (inputs: Inputs) => analyst.open(inputs);

describe('files together', () => {
  test('two wall files that contradict each other: the better source stands, the loser stays visible', async () => {
    await open({
      buildings: file('list.csv', list),
      walls: [
        file(
          'drawings.csv',
          'building_id,wall_id,facing,material,source,recorded_on\nA,n,N,stucco,drawing,2019\n',
        ),
        file(
          'openings.csv',
          'building_id,facing,material,source,recorded_on,photo\nA,N,adhered stone,opening,2015,p7.jpg\n',
        ),
      ],
    });
    const { walls } = await analyst.building(0);
    expect(
      walls.map(({ wall_id, material, kind, file: from }) => [wall_id, material, kind, from]),
    ).toEqual([
      ['n', 'adhered_stone', 'recorded', 'openings.csv'],
      ['n', 'stucco', 'superseded', 'drawings.csv'],
    ]);
    expect(walls[0]!.own).toBe('photo: p7.jpg');
    const { rows } = await analyst.remarks({ words: 'names no wall', from: 0, count: 9 });
    expect(rows).toHaveLength(1);
  });

  test('two files of one name are refused', async () => {
    const twice = { buildings: file('a.csv', list), walls: [file('a.csv', list)] };
    await expect(open(twice)).rejects.toThrow('Two of the files are named a.csv');
  });

  test('a sheet of walls with its buildings beside them is split, and a contradiction is said', async () => {
    const text =
      'bldg,built,lat,lon,elevation,cladding\nA,1990,47.6,-122.3,N,stucco\nA,1991,47.6,-122.3,E,brick\nB,2001,47.2,-122.4,N,stucco\n';
    const { files } = await open({ buildings: file('both.csv', text) });
    expect(
      files.map(({ role, rowsRead, accepted, joined, setAside }) => [
        role,
        rowsRead,
        accepted,
        joined,
        setAside,
      ]),
    ).toEqual([
      ['buildings', 3, 2, 1, 0],
      ['walls', 3, 3, 0, 0],
    ]);
    const { rows } = await analyst.remarks({ words: 'contradicts row 2', from: 0, count: 9 });
    expect(rows[0]!.message).toContain('year_built "1991" contradicts row 2, which says "1990"');
  });

  test('grids of wind and temperature are read at the buildings, and the record goes before the grid', async () => {
    const grid = (head: string, value: number) =>
      `longitude,latitude,${head}\n${[-124, -123, -122, -121].flatMap((x) => [46, 47, 48, 49].map((y) => `${x},${y},${value}`)).join('\n')}\n`;
    await open({
      buildings: file(
        'list.csv',
        'id,state,lat,lon,mean_temp_c\nA,WA,47.61,-122.33,11.5\nB,WA,47.2,-122.4,\n',
      ),
      wind: file('wind.csv', grid('wind_ms', 3.5)),
      temperature: file('temp.csv', grid('temperature_c', 9)),
    });
    const [a, b] = [await analyst.building(0), await analyst.building(1)];
    expect([a.record.mean_temp_c, b.record.mean_temp_c]).toEqual([11.5, 9]);
    // Annual driving-rain index = rain (m) × mean wind: 3-7 m²/s is moderate (from memory of BRE Digest 127).
    expect(a.drivingRain!.m2PerS).toBeCloseTo((Number(a.row.rain_mm) / 1000) * 3.5, 2);
    expect(a.drivingRain!.class).toBe(a.drivingRain!.m2PerS < 3 ? 'sheltered' : 'moderate');
  });

  test('a reading that is stopped leaves what was open', async () => {
    await open({ buildings: file('list.csv', list) });
    const stopping = new AbortController();
    const long = file('long.csv', `id,lat,lon\n${'X,47.6,-122.3\n'.repeat(50_000)}`);
    const going = analyst.open(
      { buildings: long },
      { signal: stopping.signal, onProgress: () => stopping.abort() },
    );
    await expect(going).rejects.toThrow();
    expect((await analyst.frame()).n).toBe(2);
    expect((await analyst.rows(Int32Array.of(0)))[0]!.building_id).toBe('A');
  });
});

describe('corrections', () => {
  test('of any rows keep the balance: no row is lost, none is counted twice (property)', async () => {
    const cell = fc.constantFrom(
      '47.6',
      '-122.3',
      '',
      'north',
      '0',
      '1e9',
      '=1+1',
      '<b>',
      '98101',
      'A',
    );
    const row = fc.tuple(fc.constantFrom('A', 'B', 'C', '', 'A'), cell, cell, cell);
    await fc.assert(
      fc.asyncProperty(
        fc.array(row, { minLength: 1, maxLength: 12 }),
        fc.array(
          fc.tuple(
            fc.nat(13),
            fc.constantFrom('latitude', 'longitude', 'building_id', 'postal_code'),
            cell,
          ),
          { maxLength: 6 },
        ),
        async (rows, edits) => {
          const text = `building_id,latitude,longitude,postal_code\nZ,47.6,-122.3,98101\n${rows.map((r) => r.join(',')).join('\n')}\n`;
          const blank = rows.filter((r) => r.every((value) => value === '')).length;
          const { files } = await open({
            buildings: file('dirty.csv', text),
            edits: edits.map(([i, column, value]) => ({
              file: 'dirty.csv',
              table: 'building' as const,
              row: i + 3,
              wall: null,
              column,
              value,
            })),
          });
          const [
            { rowsRead, accepted, setAside, joined } = {
              rowsRead: 0,
              accepted: 0,
              setAside: 0,
              joined: 0,
            },
          ] = files;
          expect(rowsRead).toBe(1 + rows.length - blank);
          expect(accepted + setAside + joined).toBe(rowsRead);
          const remarks = await analyst.remarks({ outcome: 'row set aside', from: 0, count: 99 });
          expect(remarks.n).toBe(setAside);
          expect(new Set(remarks.rows.map((remark) => remark.row)).size).toBe(setAside);
        },
      ),
      { seed: 20261125, numRuns: 25 },
    );
  });

  test('the record of a remark is shown as it stands, with corrections in place', async () => {
    const bytes = readFileSync('test/reference/owners/city-buildings.csv');
    const edit = {
      file: 'city.csv',
      table: 'building' as const,
      row: 31,
      wall: null,
      column: 'longitude',
      value: '-122.506332',
    };
    const { files } = await open({ buildings: file('city.csv', bytes), edits: [edit] });
    expect(files[0]!.setAside).toBe(2);
    const view = await analyst.record('city.csv', 'building', 31, null);
    expect(view!.cells.find(({ column }) => column === 'longitude')).toEqual({
      column: 'longitude',
      heading: 'X_COORD',
      value: '-122.506332',
      edited: true,
    });
    const mends = await analyst.mends();
    expect(mends.map(({ says }) => says)).toEqual(['Exchange latitude and longitude']);
  });
});
