import { describe, expect, test } from 'vitest';
import { numbers, rowObject, texts } from '../../analysis/columns.ts';
import { findingColumns } from '../../analysis/findings/columns.ts';
import { standings } from '../../analysis/findings/standing.ts';
import { Refusal } from '../../analysis/read/outcome.ts';
import { findingsOf, findingTable, openingOn } from './field.ts';

const head = 'building_id,wall_id,method,sheathing_seen,condition';
const aside = async (...lines: string[]) =>
  (await findingsOf(...lines)).setAside.map(({ code, message }) => [code, message]);

describe('the findings', () => {
  test('a full row is read into every column of the contract', async () => {
    const read = await findingsOf(
      `${findingColumns.map(({ name }) => name).join(',')},crew`,
      'B1,W2,2026-03-04,Test cut,Y,Rotten,31 %,WME,Window sill,0.4,no,P-7,A. Moss,img1.jpg,soft to 5 mm,two',
    );
    expect(rowObject(read.table, 0)).toEqual({
      building_id: 'B1',
      wall_id: 'W2',
      observed_on: '2026-03-04',
      method: 'opening',
      sheathing_seen: 'yes',
      condition: 'decayed',
      moisture_pct: 31,
      reading_scale: 'wood_equivalent',
      location: 'sill_corner',
      extent_m2: 0.4,
      not_accessible: 'no',
      plan_id: 'P-7',
      observer: 'A. Moss',
      photo: 'img1.jpg',
      note: 'soft to 5 mm',
      row: 2,
    });
    expect(rowObject(read.extra, 0)).toEqual({ crew: 'two' });
    expect([...read.noted, ...read.setAside]).toEqual([]);
  });

  test('set aside: a finding on no known building or wall', async () => {
    expect(await aside(head, 'B1,W9,,,', 'Z,W1,,,', ',W1,,,', 'B1,,,,', 'B1,W1,,,')).toEqual([
      [
        'orphan-wall',
        'Row 2 of findings.csv: building B1 has no wall W9. Correct wall_id, or add the wall to the cladding records.',
      ],
      [
        'orphan',
        'Row 3 of findings.csv: no building Z in the building list. Correct building_id, or add the building; if its row was set aside there, correct that row.',
      ],
      [
        'blank-id',
        'Row 4 of findings.csv: building_id is blank. Say which building of the building list was looked at.',
      ],
      [
        'blank-wall',
        'Row 5 of findings.csv: wall_id is blank. Say which wall of building B1 was looked at.',
      ],
    ]);
  });

  test('set aside: sheathing seen without an opening; a mend is offered', async () => {
    const { setAside, table } = await findingsOf(
      head,
      'B1,W1,visual,yes,sound',
      'B1,W1,,yes,sound',
      'B1,W1,opening,yes,sound',
      'B1,W1,moisture_meter,no,stained',
    );
    expect(setAside.map(({ row, code, mend }) => [row, code, mend?.cells])).toEqual([
      [2, 'seen-unopened', { sheathing_seen: 'no' }],
      [3, 'seen-unopened', { sheathing_seen: 'no' }],
    ]);
    expect(setAside[0]!.message).toBe(
      'Row 2 of findings.csv: sheathing_seen is yes, but the method is visual, and only an opening shows the sheathing. Write opening as the method if the wall was opened, else no under sheathing_seen.',
    );
    expect(texts(table, 'condition')).toEqual(['sound', 'stained']);
  });

  test('set aside: seen and not accessible at once', async () => {
    const rows = await aside(`${head},not_accessible`, 'B1,W1,opening,yes,sound,yes');
    expect(rows.map(([code]) => code)).toEqual(['seen-not-accessible']);
  });

  test('noted: a seen wall without condition, an opening that does not say whether it saw, a reading without scale', async () => {
    const { noted, table } = await findingsOf(
      `${head},moisture_pct,observed_on`,
      'B1,W1,opening,yes,,,',
      'B1,W1,opening,,sound,,',
      'B1,W1,moisture_meter,no,,24,',
      'B1,W1,opening,yes,mushy,,2027-01-01',
    );
    expect(table.n).toBe(4);
    expect(noted.map(({ row, code }) => [row, code])).toEqual([
      [2, 'no-condition'],
      [3, 'seen-blank'],
      [4, 'no-scale'],
      [5, 'not-date'],
      [5, 'unknown-word'],
      [5, 'no-condition'],
    ]);
    expect(noted[4]!.message).toContain('Use one of: sound, stained, softened, decayed');
  });

  test('headings: whatever their case; a missing or repeated one refuses the file in words', async () => {
    const { table } = await findingsOf('Building ID,WALL-ID,Condition', 'B1,W1,sound');
    expect(table.n).toBe(1);
    await expect(findingsOf('building_id,wall_id,note', 'B1,W1,x')).rejects.toThrow(Refusal);
    await expect(findingsOf('building_id,wall_id,note', 'B1,W1,x')).rejects.toThrow(
      'findings.csv has no heading "condition" or "not_accessible", so it cannot be read as findings. Headings found: building_id, wall_id, note.',
    );
    await expect(findingsOf('building_id,wall_id,condition,Wall ID', 'B1,W1,x,')).rejects.toThrow(
      'findings.csv has the heading "wall_id" more than once',
    );
  });
});

describe('several findings on a wall', () => {
  test('the worst seen condition stands, all are kept, and openings that disagree are named', () => {
    const table = findingTable([
      openingOn(5, 'sound'),
      openingOn(5, 'softened'),
      openingOn(5, 'decayed', { method: 'visual', sheathing_seen: 'no' }),
      openingOn(6, 'sound'),
      openingOn(6, 'stained'),
    ]);
    const { walls, says } = standings(table);
    expect(walls.map(({ wall, seen, places }) => [wall, seen, places])).toEqual([
      ['W1', 'softened', [0, 1, 2]],
      ['W2', 'stained', [3, 4]],
    ]);
    expect(says).toEqual([
      'Wall W1 of building B1 was seen more than once, with different results: sound (row 2), softened (row 3). The worst, softened, stands; the others are kept.',
    ]);
    expect(numbers(table, 'row')).toHaveLength(5);
  });

  test('a wall that no opening showed has no seen condition, whatever was said of its surface', () => {
    const table = findingTable([
      openingOn(1, 'decayed', { method: 'visual', sheathing_seen: null }),
    ]);
    expect(standings(table).walls[0]!.seen).toBeNull();
  });
});
