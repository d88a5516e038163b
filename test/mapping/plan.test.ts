import { describe, expect, test } from 'vitest';
import type { ColumnMap } from '../../analysis/mapping/column-map.ts';
import { guessMap } from '../../analysis/mapping/guess.ts';
import { type Plan, planOf } from '../../analysis/mapping/plan.ts';
import { buildingColumns, wallColumns } from '../../analysis/read/schema.ts';
import { sheet } from './sheets.ts';

/** The cells of a plan that something fills, by column: the position or the constant. */
const cells = ({ cells: all }: Plan, rules: typeof buildingColumns) =>
  Object.fromEntries(
    all.flatMap((cell, i) => (cell ? [[rules[i]!.name, cell.constant ?? cell.position]] : [])),
  );

const mapped = (wanted: 'buildings' | 'walls', ...lines: string[]): ColumnMap =>
  guessMap(sheet(...lines), wanted).map;

describe('the plan of a sheet', () => {
  test('has one cell for each rule, and none for those the reader fills', () => {
    const [plan] = planOf(mapped('buildings', 'building_id|latitude|longitude'), 'building');
    expect(plan!.cells).toHaveLength(buildingColumns.length);
    expect(cells(plan!, buildingColumns)).toEqual({ building_id: 0, latitude: 1, longitude: 2 });
  });

  test('keeps what fills nothing as it is, under names that differ', () => {
    const [plan] = planOf(mapped('buildings', 'Key|building_id|zip|KEY|| |Colour'), 'building');
    expect(plan!.extras).toEqual([
      { name: 'Key', position: 0, unnamed: false },
      { name: 'KEY (2)', position: 3, unnamed: false },
      { name: 'column_5', position: 4, unnamed: true },
      { name: 'column_6', position: 5, unnamed: true },
      { name: 'Colour', position: 6, unnamed: false },
    ]);
  });

  test('converts by the unit of the heading and names it', () => {
    const [plan] = planOf(mapped('buildings', 'ID|ZIP|Height (ft)', '1|98101|35'), 'building');
    const height = plan!.cells[buildingColumns.findIndex(({ name }) => name === 'height_m')];
    expect(height).toEqual({
      position: 2,
      heading: 'Height (ft)',
      factor: 0.3048,
      offset: 0,
      unit: { key: 'ft', label: 'ft' },
      words: null,
    });
  });

  test('takes the currency from the heading of the amount unless a column says it', () => {
    const named = mapped('buildings', 'ID|ZIP|TIV (USD)', '1|98101|900000');
    expect(cells(planOf(named, 'building')[0]!, buildingColumns)).toMatchObject({
      currency: 'USD',
    });
    const both = mapped('buildings', 'ID|ZIP|TIV (USD)|Currency', '1|98101|900000|CAD');
    expect(cells(planOf(both, 'building')[0]!, buildingColumns)).toMatchObject({ currency: 3 });
  });

  test('has no walls in a list of buildings and no buildings in a list of walls', () => {
    expect(planOf(mapped('buildings', 'ID|ZIP', '1|98101'), 'wall')).toEqual([]);
    expect(planOf(mapped('walls', 'Building|Cladding', '1|Stucco'), 'building')).toEqual([]);
  });

  test('has one plan for each wall side by side, which says what the name of the wall says', () => {
    const map = mapped(
      'buildings',
      'ID|ZIP|S elev material|N elev material|N elev SF|WRB|Gate',
      '1|98101|Stucco|EIFS|900|two papers|12',
    );
    const [north, south, ...more] = planOf(map, 'wall');
    expect(more).toEqual([]);
    expect([north!.wall, south!.wall]).toEqual(['north', 'south']);
    expect(cells(north!, wallColumns)).toEqual({
      building_id: 0,
      azimuth_deg: 'N',
      material: 3,
      area_m2: 4,
      drainage: 5,
    });
    expect(cells(south!, wallColumns)).toEqual({
      building_id: 0,
      azimuth_deg: 'S',
      material: 2,
      drainage: 5,
    });
    expect([north!.heldBy, south!.heldBy]).toEqual([[3, 4], [2]]);
    expect(north!.extras).toEqual([]);
    expect(planOf(map, 'building')[0]!.extras).toEqual([
      { name: 'Gate', position: 6, unnamed: false },
    ]);
  });

  test('reads a wall for each record in wall rows, held by its own columns and not by its building', () => {
    const map = mapped(
      'buildings',
      'ID|ZIP|Facing|Cladding',
      '1|98101|N|Stucco',
      '1|98101|S|Brick',
    );
    const [plan, ...more] = planOf(map, 'wall');
    expect(more).toEqual([]);
    expect(plan!.wall).toBeNull();
    expect(plan!.heldBy).toEqual([2, 3]);
    expect(cells(plan!, wallColumns)).toEqual({ building_id: 0, azimuth_deg: 2, material: 3 });
    expect(cells(planOf(map, 'building')[0]!, buildingColumns)).toEqual({
      building_id: 0,
      postal_code: 1,
    });
  });

  test('reads the user’s own words in their folded form', () => {
    const map = mapped('walls', 'Building|Cladding', '1|Render X');
    const words = { material: { 'Render-X': 'stucco', '?!': null } };
    const [plan] = planOf({ ...map, words }, 'wall');
    const material = plan!.cells[wallColumns.findIndex(({ name }) => name === 'material')]!;
    expect([...material.words!]).toEqual([
      ['render x', 'stucco'],
      ['?!', null],
    ]);
  });

  test('carries the extras of a list of walls', () => {
    const map = mapped('walls', 'Building|Cladding|Inspector', '1|Stucco|A');
    expect(planOf(map, 'wall')[0]!.extras).toEqual([
      { name: 'Inspector', position: 2, unnamed: false },
    ]);
    expect(planOf(map, 'wall')[0]!.heldBy).toEqual([]);
  });
});
