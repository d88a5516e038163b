import { describe, expect, test } from 'vitest';
import { terrainCategories } from '../../analysis/weather/tables.ts';
import {
  obstructionFactor,
  roughnessCoefficient,
  type WallPlace,
  wallIndex,
} from '../../analysis/weather/wall-index.ts';
import { reference } from './hours.ts';

const place: WallPlace = { terrain: 'II', heightM: 10, obstructionM: 50, wallFactor: 0.4 };

// Tables from memory of ISO 15927-3:2009; values by R in test/reference/weather/reference.R.
describe('roughness coefficient C_R = K_R ln(max(z, z_min)/z0)', () => {
  test('at 10 m in terrain I, II and III, and up to 16 m in IV', () => {
    const given = [1.1743184, 1.0066803, 0.7714427, 0.6654213];
    terrainCategories.forEach((category, i) => {
      expect(roughnessCoefficient(category, 10)).toBeCloseTo(given[i]!, 7);
      expect(roughnessCoefficient(category, 10)).toBeCloseTo(reference.roughness[category], 13);
    });
  });

  test('it does not fall below its value at the least height, and grows above', () => {
    expect(roughnessCoefficient('IV', 3)).toBe(roughnessCoefficient('IV', 16));
    expect(roughnessCoefficient('III', 3)).toBe(roughnessCoefficient('III', 8));
    expect(roughnessCoefficient('III', 9)).toBeGreaterThan(roughnessCoefficient('III', 8));
  });
});

test('the obstruction factor steps up with distance, each step up to and with its bound', () => {
  const distances = [4, 8, 8.1, 15, 25, 40, 60, 80, 100, 120, 120.1, Number.POSITIVE_INFINITY];
  expect(distances.map(obstructionFactor)).toEqual([
    0.2, 0.2, 0.3, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1,
  ]);
});

describe('wall index I_WA = I_A · C_R · C_T · O · W', () => {
  test('is the product of its factors, on level ground, with the limits of the standard beside it', () => {
    const index = wallIndex(400, place);
    if (!index.given) throw new Error(index.why);
    expect(index.wallIndexMm).toBeCloseTo(400 * 1.00668029964413 * 1 * 0.6 * 0.4, 6);
    expect(index).toMatchObject({ topography: 1, obstruction: 0.6, wallFactor: 0.4 });
    expect(index.notes).toEqual(['level ground assumed']);
    const limits = index.isoLimits.join(' ');
    for (const words of ['cliffs', '25 %', 'convective storms', 'snow or hail'])
      expect(limits).toContain(words);
  });

  test.each<[string, Partial<WallPlace>, string]>([
    ['the wall factor', { wallFactor: Number.NaN }, 'has no default'],
    ['a wall factor that can be', { wallFactor: 40 }, 'W of 40 is not above 0 and up to 1'],
    ['the terrain', { terrain: null }, 'terrain category is not known'],
    ['the height', { heightM: Number.NaN }, 'height of the wall is not known'],
    ['the obstruction', { obstructionM: Number.NaN }, 'or say that there is none'],
  ])('is not given without %s, and says so', (_, lacking, words) => {
    const index = wallIndex(400, { ...place, ...lacking });
    expect(index.given).toBe(false);
    expect(!index.given && index.why).toContain(words);
  });

  test('an obstruction nearer than the table begins takes its first value and says so', () => {
    const index = wallIndex(400, { ...place, obstructionM: 2 });
    expect(index.given && [index.obstruction, index.notes[1]]).toEqual([
      0.2,
      'The table of obstructions begins at 4 m; its first value is taken.',
    ]);
  });
});
