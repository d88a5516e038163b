import { describe, expect, test } from 'vitest';
import { quantityReader } from '../../analysis/mapping/quantity-text.ts';
import { toContract, unitsFor } from '../../analysis/mapping/units.ts';
import { buildingColumns, wallColumns } from '../../analysis/read/schema.ts';
import unitsCsv from '../../data/heading_units.csv?raw';

const reading = { asOf: 2025, decimalComma: false };
const rule = (column: string) =>
  [...buildingColumns, ...wallColumns].find(({ name }) => name === column)!;
const read = (column: string, unit: string | null, text: string) =>
  quantityReader(rule(column), unit, reading)(text);

describe('units', () => {
  // International yard and pound agreement of 1959: 1 yd = 0.9144 m exactly; the SI brochure for the Celsius scale.
  test.each([
    ['height_m', 'ft', 100, 30.48],
    ['gap_mm', 'in', 1, 25.4],
    ['overhang_mm', 'ft', 1, 304.8],
    ['wall_area_m2', 'sq ft', 1000, 92.90304],
    ['area_m2', 'sq yd', 1, 0.83612736],
    ['distance_to_coast_km', 'mi', 1, 1.609344],
    ['mean_temp_c', 'F', 212, 100],
    ['mean_temp_c', 'F', 32, 0],
    ['mean_temp_c', 'F', -40, -40],
    ['hdd18_c', 'F-days', 1800, 1000],
    ['insured_value', 'thousand', 12.5, 12_500],
    ['insured_value', 'million USD', 4.2, 4_200_000],
    ['drainage_eff_pct', 'fraction', 0.9, 90],
    ['height_m', null, 12, 12],
    ['storeys', null, 3, 3],
  ])('%s in %s: %d is %d of the contract', (column, unit, value, expected) => {
    expect(toContract(value, column, unit)).toBeCloseTo(expected, 9);
  });

  test('every column with a choice of units has the contract’s own first, which changes nothing', () => {
    for (const { name } of [...buildingColumns, ...wallColumns]) {
      const [own] = unitsFor(name);
      if (own) expect([own.factor, own.offset]).toEqual([1, 0]);
    }
    expect(unitsFor('height_m').map(({ unit }) => unit)).toEqual(['m', 'ft', 'in', 'cm', 'mm']);
    expect(unitsFor('name')).toEqual([]);
  });

  test('every line of the table says where its factor comes from', () => {
    const lines = unitsCsv.trim().split('\n').slice(1);
    expect(lines.length).toBeGreaterThan(30);
    for (const line of lines) expect(line.split(',').at(-1)!.trim()).not.toBe('');
  });

  test('a unit that a column has not is a mistake of ours', () => {
    expect(() => toContract(1, 'height_m', 'F')).toThrow('height_m is not given in F');
  });

  test.each([
    ['height_m', 'ft', '35', 10.668],
    ['height_m', null, '35 ft', 10.668],
    ['height_m', 'ft', '10 m', 10],
    ['height_m', 'ft', "35'", 10.668],
    ['height_m', 'ft', `34'-6"`, 10.5156],
    ['gap_mm', 'in', '3/16', 4.7625],
    ['gap_mm', null, '3/16"', 4.7625],
    ['gap_mm', 'in', '1 1/2', 38.1],
    ['gap_mm', 'in', '10 mm', 10],
    ['wall_area_m2', null, '1,200 sq ft', 111.483648],
    ['wall_area_m2', null, '120 m²', 120],
    ['insured_value', null, '$4.2M', 4_200_000],
    ['insured_value', 'thousand', '$1,250', 1_250_000],
    ['drainage_eff_pct', null, '90 %', 90],
    ['mean_temp_c', 'F', '50 °F', 10],
  ])('%s given in %s: the cell %s reads as %d', (column, unit, text, expected) => {
    expect(read(column, unit, text)).toBeCloseTo(expected, 9);
  });

  test.each(['about 35', '35 apples', '3/0', '12 constructor', '', 'ft', '35 ft 9 lb', '3-5 ft'])(
    'the height %j is no number',
    (text) => {
      expect(read('height_m', 'ft', text)).toBeNaN();
    },
  );
});
