import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { withSettings } from '../../analysis/settings.ts';
import { seeded } from '../../data/demo/random.ts';
import { type Case, type Facts, run } from './case.ts';
import { type Draw, everyDraw, mean, quantile, randomDraws, shareOf } from './naive.ts';

const facts =
  `rain wind terrain height_m roof runoff material installed sheathing drainage gap_mm`.split(' ');
const rain = { rain_mm: 1000, rain_1: 700, rain_2: 880, rain_3: 1000, rain_4: 1150, rain_5: 1420 };
const site = { ...rain, use: 'apartment', storeys: 4, terrain: 'medium', roof: 'low' };
const stucco = {
  material: 'stucco',
  installed: 1998,
  sheathing: 'osb',
  drainage: 'double_paper',
  runoff: 'no',
};

/** Walls with what is blank in each. Source of every expectation: the text of the method and the tables of data/. */
const walls: readonly [string, Facts, Facts, Parameters<typeof withSettings>[0]?][] = [
  ['nothing but the wind', site, stucco],
  ['the terrain', { ...site, terrain: null }, stucco],
  ['the height, of unknown use', { ...site, storeys: null, use: null }, stucco],
  ['the roof of a house', { ...site, use: 'house', storeys: 2, roof: null }, stucco],
  ['runoff', site, { ...stucco, runoff: null }],
  ['what drains the wall', site, { ...stucco, drainage: null }],
  ['the sheathing', site, { ...stucco, sheathing: null }],
  ['the year', site, { ...stucco, installed: null, drainage: null }],
  ['the depth of a mat’s gap', site, { ...stucco, drainage: 'drainage_mat' }],
  ['the layer, with a gap on record', site, { ...stucco, drainage: null, gap_mm: 3 }],
  ['the kind of EIFS', site, { material: 'eifs', installed: 2005, runoff: 'no' }],
  [
    'the sheathing behind drained EIFS',
    site,
    { material: 'eifs_drained', installed: 2015, runoff: 'no' },
  ],
  ['the layer on masonry', site, { ...stucco, sheathing: 'masonry', drainage: null }],
  [
    'the sheathing, with a tested mat',
    site,
    { ...stucco, sheathing: null, drainage: 'drainage_mat', drainage_eff_pct: 95 },
  ],
  [
    'terrain, roof, layer and sheathing',
    { ...site, terrain: null, roof: null },
    { ...stucco, sheathing: null, drainage: null },
  ],
  ['the material alone', { ...site }, { ...stucco, material: null }],
  [
    'terrain and layer under other weights',
    { ...site, terrain: null },
    { ...stucco, drainage: null },
    { constants: { weight_load: 0.5, weight_deficiency: 2, weight_susceptibility: 1.5 } },
  ],
];

async function engine(building: Facts, wall: Facts, settings = withSettings({})) {
  const found = await run([{ building, walls: [wall] }] as Case[], settings);
  return { row: found.buildings[0]!, gapAsked: found.walls[0]!.gap_asked_mm as number };
}

describe('the factored engine equals a loop over every combination, where these are blank:', () => {
  test.each(walls)('%s', async (_, building, wall, changes) => {
    const settings = withSettings(changes ?? {});
    const { row, gapAsked } = await engine(building, wall, settings);
    const draws = everyDraw(building, wall, gapAsked, settings.constants);
    // The ranking shows two decimals; roundings of the steps before add less than that.
    expect(row.index).toBeCloseTo(mean(draws), 1.9);
    expect(Math.abs((row.index as number) - mean(draws))).toBeLessThan(0.006);
    expect(Math.abs((row.index_low as number) - quantile(draws, 0.1))).toBeLessThan(0.006);
    expect(Math.abs((row.index_high as number) - quantile(draws, 0.9))).toBeLessThan(0.006);
    for (const fact of facts) {
      expect(row[`share_${fact}`], `share of ${fact}`).toBeCloseTo(shareOf(draws, fact), 3);
    }
  });
});

describe('a wall with every fact blank', () => {
  const n = 300_000;
  const random = seeded(41);
  const building = { ...rain };
  let draws: Draw[];

  test('agrees with a seeded simulation: mean within four standard errors, quantiles at their weight', async () => {
    const settings = withSettings({});
    const { row, gapAsked } = await engine(building, {}, settings);
    draws = randomDraws(
      building,
      {},
      gapAsked,
      settings.constants,
      n,
      () => random.word() / 2 ** 32,
    );
    const middle = mean(draws);
    const variance = draws.reduce((sum, { index }) => sum + (index - middle) ** 2, 0) / n;
    expect(Math.abs((row.index as number) - middle)).toBeLessThan(
      4 * Math.sqrt(variance / n) + 0.005,
    );
    for (const [column, q] of [
      ['index_low', 0.1],
      ['index_high', 0.9],
    ] as const) {
      const at = row[column] as number;
      const below = draws.filter(({ index }) => index < at - 0.0051).length / n;
      const upTo = draws.filter(({ index }) => index <= at + 0.0051).length / n;
      const error = 4 * Math.sqrt((q * (1 - q)) / n);
      expect(below).toBeLessThan(q + error);
      expect(upTo).toBeGreaterThan(q - error);
    }
    for (const fact of facts) {
      expect(Math.abs((row[`share_${fact}`] as number) - shareOf(draws, fact)), fact).toBeLessThan(
        0.01,
      );
    }
  });
});

describe('knowing a fact', () => {
  const blanks = {
    terrain: ['severe', 'medium', 'sheltered'],
    roof: ['steep', 'low'],
    runoff: ['yes', 'no'],
    drainage: [
      'none',
      'single_paper',
      'double_paper',
      'textured_wrap',
      'drainage_mat',
      'furred_cavity',
    ],
    sheathing: [
      'osb',
      'plywood',
      'gypsum',
      'open_framing',
      'masonry',
      'concrete',
      'foam',
      'boards',
      'fiberboard',
    ],
  } as const;
  type Blank = keyof typeof blanks;

  test('keeps the mean of the blank wall between the least and the greatest of what it may be', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...(Object.keys(blanks) as Blank[])),
        fc.integer({ min: 100, max: 3000 }),
        async (fact, mm) => {
          const base = {
            rain_mm: mm,
            use: 'apartment',
            storeys: 3,
            terrain: 'medium',
            roof: 'low',
          };
          const set = (value: string | null): Case => ({
            building: { ...base, ...(fact in base ? { [fact]: value } : {}) },
            walls: [{ ...stucco, ...(fact in base ? {} : { [fact]: value }) }],
          });
          const { buildings } = await run([set(null), ...blanks[fact].map(set)]);
          const [blank, ...filled] = buildings.map(({ index }) => index as number);
          expect(blank).toBeGreaterThanOrEqual(Math.min(...filled) - 0.01);
          expect(blank).toBeLessThanOrEqual(Math.max(...filled) + 0.01);
        },
      ),
      { seed: 3, numRuns: 12 },
    );
  });

  test('explains nothing where it is on record, and all where it alone is blank', async () => {
    const exact = { ...site, rain_1: 1000, rain_2: 1000, rain_3: 1000, rain_4: 1000, rain_5: 1000 };
    const { row } = await engine(exact, { ...stucco, drainage: 'none' });
    for (const fact of facts)
      expect(row[`share_${fact}`], fact).toBeCloseTo(fact === 'wind' ? 1 : 0, 3);
  });
});
