import { createHash } from 'node:crypto';
import { beforeAll, describe, expect, test } from 'vitest';
import { digestOf } from '../../analysis/read/digest.ts';
import { memorySource } from '../../analysis/read/memory-source.ts';
import type { Analyst, Edit, Inputs } from '../../analysis/session-types.ts';
import { session } from '../session/open.ts';

const buildings = `Building ID,Town,State,Lat,Lon,Year built,Floors,Type,=Held
B1,Seattle,WA,47.61,-122.33,1996,4,apartment,-7
B2,Phoenix,AZ,33.45,-112.07,2004,2,townhouse,x
B3,Vancouver,BC,49.26,-123.11,2001,3,townhouse,
B3,Vancouver,BC,49.26,-123.11,2001,3,townhouse,
`;
const walls = `Building ID,Facing,Cladding,Area,Behind
B1,N,stucco,300,none
B3,270,house render,200,
B9,0,stucco,10,
`;
const edits: readonly Edit[] = [
  {
    file: 'buildings.csv',
    table: 'building',
    row: 3,
    wall: null,
    column: 'year_built',
    value: '2011',
  },
];
const sources = {
  buildings: memorySource('buildings.csv', buildings),
  walls: memorySource('walls.csv', walls),
};
const given: Inputs = { buildings: sources.buildings, walls: [sources.walls], edits };

let analyst: Analyst;
beforeAll(async () => {
  analyst = await session();
});

/** Opens with the column `Behind` read as `drainage`, and the cladding word in the user's own sense. */
async function opened() {
  const { guessed } = await analyst.preview(sources.walls, 'walls', {}, []);
  const drainage = { table: 'wall', column: 'drainage' } as const;
  const map = {
    ...guessed.map,
    columns: guessed.map.columns.map((column) =>
      column.heading === 'Behind' ? { ...column, fills: drainage } : column,
    ),
    words: { ...guessed.map.words, material: { 'house render': 'stucco' } },
  };
  await analyst.open({
    ...given,
    sheets: { 'walls.csv': { map } },
    settings: { constants: { as_of: 2025 } },
  });
  return map;
}

describe('the sidecar', () => {
  test('tells each file with its digest and counts, and how it was read', async () => {
    const map = await opened();
    const told = JSON.parse((await analyst.write('csv', 'metric')).about);
    const sha256 = (text: string) => createHash('sha256').update(text).digest('hex');
    expect(told.inputs).toEqual([
      {
        file: 'buildings.csv',
        role: 'buildings',
        sha256: sha256(buildings),
        records: 4,
        rows_read: 4,
        accepted: 3,
        joined: 0,
        set_aside: 1,
        sheet: null,
        map: 1,
      },
      {
        file: 'walls.csv',
        role: 'walls',
        sha256: sha256(walls),
        records: 3,
        rows_read: 3,
        accepted: 2,
        joined: 0,
        set_aside: 1,
        sheet: null,
        map: 2,
      },
    ]);
    expect(told.maps).toHaveLength(2);
    expect(told.maps[1]).toEqual(map);
    expect(told.edits).toEqual(edits);
    expect(told.settings).toEqual({ constants: { as_of: 2025 } });
  });

  test('given back with the files repeats the run to the byte', async () => {
    await opened();
    const first = await analyst.write('csv', 'metric');
    const { maps, edits, settings } = JSON.parse(first.about);
    const other = await session();
    const files = { buildings: sources.buildings, walls: [sources.walls] };
    await other.open(files);
    const bare = await other.write('csv', 'metric');
    expect(Buffer.compare(bare.bytes, first.bytes)).not.toBe(0);
    await other.open({ ...files, maps, edits, settings });
    const again = await other.write('csv', 'metric');
    expect(Buffer.compare(again.bytes, first.bytes)).toBe(0);
    expect(again.about).toBe(first.about);
  });

  test('uses none of the words that a screening cannot stand behind', async () => {
    await opened();
    const { about } = await analyst.write('csv', 'metric');
    expect(about).not.toMatch(/at risk of|defective|non-compliant|\bsafe\b|\bfails\b/i);
  });
});

describe('the digest of a file', () => {
  test('is the SHA-256 of its bytes, however they come', async () => {
    // FIPS 180-2, appendix B.1: "abc".
    const abc = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
    const bytes = new TextEncoder().encode('abc');
    const source = {
      ...memorySource('abc', bytes),
      bytes: async function* () {
        yield bytes.subarray(0, 1);
        yield bytes.subarray(1, 1);
        yield bytes.subarray(1);
      },
    };
    expect(await digestOf(source)).toBe(abc);
    expect(await digestOf(memorySource('abc', bytes))).toBe(abc);
  });
});
