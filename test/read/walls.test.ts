import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { numbers, rowObject, texts } from '../../analysis/columns.ts';
import { wallColumns } from '../../analysis/read/schema.ts';
import { lines, refusal, walls } from './sources.ts';

const aside = async (content: string): Promise<string[]> =>
  (await walls(content)).setAside.map(({ message }) => message);

describe('the cladding records', () => {
  test('a full row is read into every column of the contract', async () => {
    const read = await walls(
      lines(
        'building_id,wall_id,azimuth_deg,material,area_m2,installed,drainage,gap_mm,drainage_eff_pct,sheathing,runoff,windows_count,kickout,balcony_or_deck,weep_screed,coating,overhang_mm,source,recorded_on,photo',
        'B-1,W-1,NNE,Cement plaster,120,1994,2 layers Grade D,0,45 %,OSB,Y,8,no,TRUE,n,elastomeric,150,Test cut,2019-05,a.jpg',
      ),
    );
    expect(rowObject(read.table, 0)).toEqual({
      building_id: 'B-1',
      wall_id: 'W-1',
      azimuth_deg: 22.5,
      material: 'stucco',
      area_m2: 120,
      installed: 1994,
      drainage: 'double_paper',
      gap_mm: 0,
      drainage_eff_pct: 45,
      sheathing: 'osb',
      runoff: 'yes',
      windows_count: 8,
      kickout: 'no',
      balcony_or_deck: 'yes',
      weep_screed: 'no',
      coating: 'elastomeric',
      overhang_mm: 150,
      source: 'opening',
      recorded_on: '2019-05-01',
      wall_id_made: null,
      row: 2,
    });
    expect(rowObject(read.extra, 0)).toEqual({ photo: 'a.jpg' });
    expect([...read.noted, ...read.setAside]).toEqual([]);
  });

  test('every column of the contract is there, with building_id and material alone in the file', async () => {
    const { table } = await walls(lines('building_id,material', 'B-1,stucco'));
    expect(Object.keys(table.cols)).toEqual([...wallColumns.map(({ name }) => name), 'row']);
  });

  test('a wall without an identifier is named by building and row, and marked so', async () => {
    const content = lines(
      'building_id,material,wall_id',
      'B-1,stucco,',
      'B-2,wood,W',
      'B-2,wood,n/a',
    );
    const { table } = await walls(content);
    expect(texts(table, 'wall_id')).toEqual(['B-1-row2', 'W', 'B-2-row4']);
    expect(texts(table, 'wall_id_made')).toEqual(['yes', null, 'yes']);
    const bare = await walls(lines('building_id,material', 'B-1,stucco', 'B-2,wood'));
    expect(texts(bare.table, 'wall_id')).toEqual(['B-1-row2', 'B-2-row3']);
  });

  test('a blank material is no record, and no drainage is a value', async () => {
    const { table, noted } = await walls(
      lines('building_id,material,drainage', 'B-1,,none', 'B-1,unknown,n/a'),
    );
    expect(texts(table, 'material')).toEqual([null, null]);
    expect(texts(table, 'drainage')).toEqual(['none', null]);
    expect(noted).toEqual([]);
  });

  test('several records of one wall are all kept', async () => {
    const { table } = await walls(
      lines('building_id,wall_id,material', 'B-1,W,stucco', 'B-1,W,wood'),
    );
    expect(table.n).toBe(2);
  });

  test('north is 0 and 360; 361 and −10 are noted', async () => {
    const { table, noted } = await walls(
      lines(
        'building_id,material,azimuth_deg',
        'B-1,wood,360',
        'B-1,wood,N',
        'B-1,wood,361',
        'B-1,wood,-10',
      ),
    );
    expect([...numbers(table, 'azimuth_deg')]).toEqual([0, 0, Number.NaN, Number.NaN]);
    expect(noted.map(({ message }) => message)[0]).toBe(
      'Row 4 of walls.csv: azimuth_deg "361" is not a direction, so it is taken as no record. Write degrees from 0 to 360 or a point of the compass such as N or NNE, or leave the cell empty if it is not known.',
    );
    expect(noted.map(({ row }) => row)).toEqual([4, 5]);
  });

  test('a date that is none, or lies after the year of the analysis, is noted', async () => {
    const { table, noted } = await walls(
      lines(
        'building_id,material,recorded_on',
        'B-1,wood,03/05/2019',
        'B-1,wood,2031-01-01',
        'B-1,wood,2019',
      ),
    );
    expect(texts(table, 'recorded_on')).toEqual([null, null, '2019-01-01']);
    expect(noted.map(({ message }) => message)).toEqual([
      'Row 2 of walls.csv: recorded_on "03/05/2019" is not a date up to 2026, so it is taken as no record. Write it as 2019, 2019-05 or 2019-05-31, or leave the cell empty if it is not known.',
      'Row 3 of walls.csv: recorded_on "2031-01-01" is not a date up to 2026, so it is taken as no record. Write it as 2019, 2019-05 or 2019-05-31, or leave the cell empty if it is not known.',
    ]);
  });
});

describe('a wall is set aside', () => {
  test('when it names no building', async () => {
    expect(await aside(lines('building_id,material', ',stucco'))).toEqual([
      'Row 2 of walls.csv: building_id is blank. Say which building of the building list the wall belongs to.',
    ]);
  });

  test('when its building is not in the building list', async () => {
    expect(await aside(lines('building_id,material', 'B-17,stucco'))).toEqual([
      'Row 2 of walls.csv: no building B-17 in the building list. Correct building_id, or add the building; if its row was set aside there, correct that row.',
    ]);
  });

  test('when it was installed after the year of the analysis', async () => {
    expect(await aside(lines('building_id,material,installed', 'B-1,stucco,2031'))).toEqual([
      'Row 2 of walls.csv: installed "2031" is after 2026. Correct the year, or set "as of" to a later year.',
    ]);
  });

  test('but a year that is only implausible is noted', async () => {
    const read = await walls(lines('building_id,material,installed', 'B-1,stucco,98'));
    expect(read.table.n).toBe(1);
    expect(read.noted.map(({ message }) => message)).toEqual([
      'Row 2 of walls.csv: installed "98" lies outside 1600 to 2026, so it is taken as no record. Check the year.',
    ]);
  });

  test('when it has more cells than there are headings', async () => {
    expect(await aside(lines('building_id,material', 'B-1,stucco,osb'))).toEqual([
      'Row 2 of walls.csv: it has 3 cells where there are 2 headings. A cell that holds the delimiter needs quotation marks; correct the row so that its cells stand under their headings.',
    ]);
  });
});

test('a file without materials is refused, with the headings found', async () => {
  expect(await refusal(walls(lines('building_id,storeys', 'B-1,3')))).toBe(
    'walls.csv has no heading "material", and no column that could be meant. Headings found: building_id, storeys. Add or rename the heading in the first row, or say in the column map which column it is.',
  );
});

test('accepted + set aside = rows, each row once (property)', async () => {
  const cell = fc.constantFrom(
    'B-1',
    'B-2',
    'B-3',
    '',
    'stucco',
    'EIFS',
    'N',
    '361',
    '1990',
    '2031',
    'none',
    '"x,\ny"',
    'W',
  );
  const rows = fc.array(fc.array(cell, { minLength: 1, maxLength: 8 }), {
    minLength: 1,
    maxLength: 40,
  });
  await fc.assert(
    fc.asyncProperty(rows, async (dirty) => {
      const content = lines(
        'building_id,material,azimuth_deg,installed,drainage,wall_id',
        'B-1,stucco',
        ...dirty.map((cells) => cells.join(',')),
      );
      const read = await walls(content);
      const expected = dirty.flatMap((cells, i) =>
        cells.every((text) => text === '') ? [] : [i + 3],
      );
      const seen = [...numbers(read.table, 'row'), ...read.setAside.map(({ row }) => row)];
      expect(seen.sort((a, b) => a - b)).toEqual([2, ...expected]);
      expect(texts(read.table, 'wall_id')).not.toContain(null);
    }),
    { seed: 79, numRuns: 300 },
  );
});
