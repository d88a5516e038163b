import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { withSettings } from '../../analysis/settings.ts';
import { type Case, type Facts, run } from './case.ts';

const maybe = <T>(...values: readonly T[]) => fc.constantFrom<T | null>(null, ...values);
const buildingFacts = fc.record({
  rain_mm: fc.integer({ min: 20, max: 4000 }),
  terrain: maybe('severe', 'medium', 'sheltered'),
  roof: maybe('steep', 'low'),
  use: maybe('house', 'townhouse', 'apartment', 'office'),
  storeys: maybe(1, 2, 3, 5, 8, 14, 25),
  climate_zone: maybe('2A', '3B', '4C', '5A'),
  country: maybe('US', 'CA'),
  moisture_index: maybe(0.8, 1.2),
});
const wallFacts = fc.record({
  material: maybe(
    'stucco',
    'one_coat_stucco',
    'adhered_stone',
    'eifs',
    'eifs_barrier',
    'eifs_drained',
    'fiber_cement',
    'wood',
  ),
  drainage: maybe(
    'none',
    'single_paper',
    'double_paper',
    'felt_2',
    'textured_wrap',
    'drainage_mat',
    'furred_cavity',
  ),
  gap_mm: maybe(3, 5, 6.4, 10, 19),
  sheathing: maybe('osb', 'plywood', 'gypsum', 'masonry', 'concrete', 'open_framing'),
  installed: maybe(1965, 1994, 2008, 2019),
  runoff: maybe('yes', 'no'),
  area_m2: maybe(40, 120, 300),
});
type Drawn = { building: Facts; walls: Facts[] };
const buildings = fc.array(
  fc.record({
    building: buildingFacts,
    walls: fc.array(wallFacts, { minLength: 1, maxLength: 4 }),
  }),
  { minLength: 24, maxLength: 48 },
);
const mapBuilding = (cases: Drawn[], change: (facts: Facts) => Facts): Case[] =>
  cases.map(({ building, walls }) => ({ building: change(building), walls }));
const mapWalls = (cases: Drawn[], change: (facts: Facts) => Facts): Case[] =>
  cases.map(({ building, walls }) => ({ building, walls: walls.map(change) }));
const options = { seed: 20261125, numRuns: 6 };

/** Both lists in one run: what a building's index is, no other building changes. */
async function never(lower: readonly Case[], higher: readonly Case[]) {
  const { buildings } = await run([...lower, ...higher]);
  for (const [i, { index }] of buildings.slice(0, lower.length).entries()) {
    const other = buildings[lower.length + i]!.index as number;
    expect(other, JSON.stringify(higher[i])).toBeGreaterThanOrEqual((index as number) - 1e-9);
  }
}

describe('the index', () => {
  test('lies between 0 and 100, with low ≤ high, whatever is on record', async () => {
    await fc.assert(
      fc.asyncProperty(buildings, async (cases) => {
        for (const row of (await run(cases)).buildings) {
          const [index, low, high] = [row.index, row.index_low, row.index_high] as number[];
          expect(index).toBeGreaterThanOrEqual(0);
          expect(high).toBeLessThanOrEqual(100);
          expect(low).toBeLessThanOrEqual(high!);
        }
      }),
      options,
    );
  });

  test('never falls when there is more rain (what is asked held as it was)', async () => {
    await fc.assert(
      fc.asyncProperty(buildings, fc.integer({ min: 1, max: 2000 }), async (cases, more) => {
        const asked = (facts: Facts) => ({
          ...facts,
          p_rain_over_threshold: 0.5,
          climate_zone: '4A',
        });
        await never(
          mapBuilding(cases, asked),
          mapBuilding(cases, (facts) => ({
            ...asked(facts),
            rain_mm: (facts.rain_mm as number) + more,
          })),
        );
      }),
      options,
    );
  });

  test('never falls when more rain makes practice or code ask for more', async () => {
    await fc.assert(
      fc.asyncProperty(buildings, fc.integer({ min: 1, max: 2000 }), async (cases, more) => {
        await never(
          cases,
          mapBuilding(cases, (facts) => ({ ...facts, rain_mm: (facts.rain_mm as number) + more })),
        );
      }),
      options,
    );
  });

  test('never rises with a wider gap', async () => {
    await fc.assert(
      fc.asyncProperty(buildings, async (cases) => {
        await never(
          mapWalls(cases, (facts) => ({ ...facts, gap_mm: 8 })),
          mapWalls(cases, (facts) => ({ ...facts, gap_mm: 4 })),
        );
      }),
      options,
    );
  });

  test('never rises along the layers: none, two papers, textured wrap, mat, furred cavity', async () => {
    const layers = ['furred_cavity', 'drainage_mat', 'textured_wrap', 'double_paper', 'none'];
    await fc.assert(
      fc.asyncProperty(buildings, fc.integer({ min: 0, max: 3 }), async (cases, i) => {
        const behind = (drainage?: string) =>
          mapWalls(cases, (facts) => ({ ...facts, drainage, gap_mm: null }));
        await never(behind(layers[i]), behind(layers[i + 1]));
      }),
      options,
    );
  });

  test('of a building never falls when a wall is added', async () => {
    await fc.assert(
      fc.asyncProperty(buildings, wallFacts, async (cases, wall) => {
        await never(
          cases,
          cases.map(({ building, walls }) => ({ building, walls: [...walls, wall] })),
        );
      }),
      options,
    );
  });
});

test('wetting never falls when a building is taller', async () => {
  await fc.assert(
    fc.asyncProperty(buildings, async (cases) => {
      const at = (storeys: number) => mapBuilding(cases, (facts) => ({ ...facts, storeys }));
      const { walls } = await run([...at(2), ...at(9)]);
      const wetting = walls.map((row) => row.wetting_l_m2 as number);
      const [low, high] = [wetting.slice(0, walls.length / 2), wetting.slice(walls.length / 2)];
      for (const [i, least] of low.entries()) expect(high[i]).toBeGreaterThanOrEqual(least);
    }),
    options,
  );
});

test('the ranking does not depend on the order of the wall file', async () => {
  await fc.assert(
    fc.asyncProperty(buildings, async (cases) => {
      const named = cases.map(({ building, walls }) => ({
        building,
        walls: walls.map((wall, i) => ({ ...wall, wall_id: `N${i % 3}` })),
      }));
      const reversed = named.map(({ building, walls }) => ({
        building,
        walls: walls.toReversed(),
      }));
      const pick = async (list: Case[]) =>
        (await run(list)).buildings.map(({ rank, index, index_high, wall_id, need_code_now }) => ({
          rank,
          index,
          index_high,
          wall_id,
          need_code_now,
        }));
      expect(await pick(reversed)).toEqual(await pick(named));
    }),
    options,
  );
});

test('a reported leak sets at least Next look and stands before any index', async () => {
  const { buildings: rows } = await run([
    {
      building: { rain_mm: 2000, terrain: 'severe' },
      walls: [{ material: 'stucco', drainage: 'none', sheathing: 'osb' }],
    },
    {
      building: { rain_mm: 100, leak_history: 'reported' },
      walls: [{ material: 'stucco', sheathing: 'concrete' }],
    },
    {
      building: { rain_mm: 100, leak_history: 'repaired' },
      walls: [{ material: 'stucco', sheathing: 'concrete' }],
    },
  ]);
  expect(rows[1]).toMatchObject({ tier: 1, rank: 1 });
  expect(rows[2]).toMatchObject({ tier: 3, rank: 3 });
});

test('wall area that no record covers counts as a wall of unknowns, beyond 5 %', async () => {
  const part = (wall_area_m2: number) => ({
    building: { rain_mm: 1000, wall_area_m2 },
    walls: [{ material: 'stucco', area_m2: 100 }],
  });
  const { walls } = await run([part(104), part(106)]);
  expect(walls.map(({ b, kind, area_used_m2 }) => [b, kind, area_used_m2])).toEqual([
    [0, 'recorded', 100],
    [1, 'recorded', 100],
    [1, 'remainder', 6],
  ]);
});

test('weights act as exponents: at 0 a factor no longer counts', async () => {
  const cases = [
    {
      building: { rain_mm: 1000 },
      walls: [{ material: 'stucco', drainage: 'none', sheathing: 'gypsum', installed: 2000 }],
    },
  ];
  const settings = withSettings({ constants: { weight_load: 0, weight_susceptibility: 0 } });
  expect((await run(cases, settings)).buildings[0]).toMatchObject({ index: 100, index_low: 100 });
});
