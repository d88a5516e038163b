import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { referenceRows } from '../../analysis/reference.ts';
import { seeded } from '../../analysis/sample/random.ts';
import { type SettingsChanges, withSettings } from '../../analysis/settings.ts';
import { type Facts, run } from './case.ts';
import { type Draw, everyDraw, mean, quantile, randomDraws, shareOf, variance } from './naive.ts';

// Source of every expectation: our own method (its text and the tables of data/), by way of naive.ts; no outside source.

const facts =
  'rain wind terrain height_m roof runoff material installed sheathing drainage gap_mm'.split(' ');
const rain = { rain_mm: 1000, rain_1: 700, rain_2: 880, rain_3: 1000, rain_4: 1150, rain_5: 1420 };
const drier = { rain_mm: 400, rain_1: 300, rain_2: 350, rain_3: 400, rain_4: 450, rain_5: 520 };
const site = { ...rain, use: 'apartment', storeys: 4, terrain: 'medium', roof: 'low' };
const stucco = {
  material: 'stucco',
  installed: 1998,
  sheathing: 'osb',
  drainage: 'double_paper',
  runoff: 'no',
};
const weights = { weight_load: 0.5, weight_deficiency: 2, weight_susceptibility: 1.5 };

/** Twice the greatest difference seen in a mean, in index points: the engine rounds the mean of each factor to 1e-6. */
const MEAN_AGREES = 8e-5;
/** Quantiles were seen equal to the last digit, 1e-6 of the index: one digit of room. */
const QUANTILE_AGREES = 1.5e-6;
/** Twice the greatest difference seen: the engine rounds variances to 1e-9, which tells where the index is small. */
const SHARE_AGREES = 8.5e-4;

interface Example {
  readonly blank: string;
  readonly building?: Facts;
  readonly wall?: Facts;
  /** Settings that differ from what ships. */
  readonly changes?: SettingsChanges;
  /** g*: 1/4 in where practice asks (over 508 mm of rain, framing), else 3/16 in. */
  readonly gapAskedMm?: number;
}

/** The shipped prior with other weights. */
const prior = (id: string, weight: (row: Readonly<Record<string, string>>) => number) => ({
  priors: { [id]: referenceRows(id).map((row) => ({ ...row, weight: weight(row) })) },
});

const examples: readonly Example[] = [
  { blank: 'the wind and the spread of two papers alone' },
  { blank: 'the terrain', building: { terrain: null } },
  { blank: 'the height, of unknown use', building: { storeys: null, use: null } },
  { blank: 'the roof of a house', building: { use: 'house', storeys: 2, roof: null } },
  { blank: 'runoff', wall: { runoff: null } },
  { blank: 'what drains the wall', wall: { drainage: null } },
  { blank: 'the sheathing', wall: { sheathing: null } },
  { blank: 'the year and the layer', wall: { installed: null, drainage: null } },
  { blank: 'how deep a drainage mat is', wall: { drainage: 'drainage_mat' } },
  { blank: 'the layer, with a gap on record', wall: { drainage: null, gap_mm: 3 } },
  {
    blank: 'the terrain, with a gap on record in a dry place',
    building: { ...drier, terrain: null },
    wall: { gap_mm: 3 },
    gapAskedMm: 4.8,
  },
  {
    blank: 'roof and sheathing, with hardly a gap behind one sheet',
    building: { roof: null },
    wall: { drainage: 'single_paper', gap_mm: 0.3 },
  },
  {
    blank: 'the roof, with hardly a gap behind two sheets',
    building: { roof: null },
    wall: { gap_mm: 0.3 },
  },
  {
    blank: 'sheathing and layer of EIFS of unknown kind',
    wall: { material: 'eifs', installed: 2005, sheathing: null, drainage: null },
  },
  {
    blank: 'the sheathing behind drained EIFS',
    wall: { material: 'eifs_drained', installed: 2015, sheathing: null, drainage: null },
  },
  { blank: 'the layer on masonry', wall: { sheathing: 'masonry', drainage: null } },
  {
    blank: 'the year and the layer of adhered stone on concrete',
    wall: { material: 'adhered_stone', sheathing: 'concrete', installed: null, drainage: null },
  },
  {
    blank: 'the sheathing, with a mat of stated efficiency',
    wall: { sheathing: null, drainage: 'drainage_mat', drainage_eff_pct: 95 },
  },
  {
    blank: 'material and year, with a stated efficiency',
    wall: { material: null, installed: null, drainage: null, drainage_eff_pct: 92 },
  },
  {
    blank: 'terrain, roof, layer and sheathing',
    building: { terrain: null, roof: null },
    wall: { sheathing: null, drainage: null },
  },
  {
    blank: 'terrain, height, roof, runoff, sheathing and layer',
    building: { terrain: null, storeys: null, roof: null },
    wall: { runoff: null, sheathing: null, drainage: null },
  },
  {
    blank: 'material, year, sheathing and layer',
    wall: { material: null, installed: null, sheathing: null, drainage: null },
  },
  {
    blank: 'terrain and layer, under other weights',
    building: { terrain: null },
    wall: { drainage: null },
    changes: { constants: weights },
  },
  {
    blank: 'year, sheathing and roof, under a weight of none for drainage',
    building: { roof: null },
    wall: { installed: null, sheathing: null },
    changes: { constants: { weight_deficiency: 0 } },
  },
  {
    blank: 'year and sheathing, age not counting',
    wall: { installed: null, sheathing: null },
    changes: { constants: { age_counts: 0 } },
  },
  {
    blank: 'terrain and layer, under a prior of the user’s own',
    building: { terrain: null },
    wall: { drainage: null },
    changes: prior('prior_terrain', ({ terrain }) => (terrain === 'severe' ? 30 : 7)),
  },
  {
    blank: 'the wind, which mostly blows hard for all we know',
    changes: prior('prior_wind', ({ wind_m_s }) => (wind_m_s === '5' ? 8 : 1)),
  },
];

type Row = Readonly<Record<string, number>>;

/** One wall through the engine (ranking row and wall row), and the same wall for naive.ts. */
async function both({ building, wall, changes, gapAskedMm = 6.4 }: Omit<Example, 'blank'>) {
  const settings = withSettings(changes ?? {});
  const of = { building: { ...building }, wall: { ...wall }, gapAskedMm, settings };
  const found = await run([{ building: of.building, walls: [of.wall] }], settings);
  return { of, row: found.buildings[0] as Row, unrounded: found.walls[0] as Row };
}

/** Mean and quantiles of the unrounded index agree, the ranking shows them to two decimals, and the shares agree. */
function expectAgreement(
  { row, unrounded }: Awaited<ReturnType<typeof both>>,
  draws: readonly Draw[],
) {
  const naive = [
    ['index', mean(draws), MEAN_AGREES],
    ['index_low', quantile(draws, 0.1), QUANTILE_AGREES],
    ['index_high', quantile(draws, 0.9), QUANTILE_AGREES],
  ] as const;
  for (const [name, value, agrees] of naive) {
    expect(Math.abs(unrounded[name]! - value), name).toBeLessThan(agrees);
    expect(Math.abs(row[name]! - value), `${name} shown`).toBeLessThan(0.005 + agrees);
  }
  for (const fact of facts) {
    const apart = Math.abs(row[`share_${fact}`]! - shareOf(draws, fact).share);
    expect(apart, `share of ${fact}`).toBeLessThan(SHARE_AGREES);
  }
}

describe('the engine equals a loop over every combination, where these are blank:', () => {
  test.each(examples)('$blank', async ({ building, wall, ...rest }) => {
    const example = { building: { ...site, ...building }, wall: { ...stucco, ...wall }, ...rest };
    const found = await both(example);
    expectAgreement(found, everyDraw(found.of));
  });
});

// The engine multiplies weights as they stand; data/priors/ has 100 in every group, so what ships is not touched.
test('the weights of a prior count within their material and era alone', async () => {
  const found = await both({
    building: site,
    wall: { ...stucco, installed: null, drainage: null },
    changes: prior('prior_drainage', ({ era, weight }) => Number(weight) * (era === '1' ? 10 : 1)),
  });
  expectAgreement(found, everyDraw(found.of));
});

describe('a wall with every fact blank agrees with 400,000 seeded draws within four standard errors:', () => {
  const n = 400_000;
  /** Half of the last digit shown. */
  const digit = 0.005;
  let row: Row;
  let draws: readonly Draw[];

  beforeAll(async () => {
    const found = await both({ building: rain });
    const random = seeded(41);
    row = found.row;
    draws = randomDraws(found.of, n, () => random.word() / 2 ** 32);
  });

  test('the mean', () => {
    const error = Math.sqrt(variance(draws) / n);
    expect(Math.abs(row.index! - mean(draws))).toBeLessThan(4 * error + digit);
  });

  test.each([
    ['index_low', 0.1],
    ['index_high', 0.9],
  ])('%s stands where the cumulative weight passes %d', (name, q) => {
    const error = Math.sqrt((q * (1 - q)) / n);
    const share = (holds: (index: number) => boolean) =>
      draws.filter(({ index }) => holds(index)).length / n;
    // The weight below the value and up to it: between them lies the mass at the value itself.
    expect(share((index) => index < row[name]! - digit)).toBeLessThan(q + 4 * error);
    expect(share((index) => index <= row[name]! + digit)).toBeGreaterThan(q - 4 * error);
  });

  test.each(facts)('the share of %s', (fact) => {
    const { share, error } = shareOf(draws, fact);
    expect(share).toBeGreaterThan(0);
    expect(Math.abs(row[`share_${fact}`]! - share)).toBeLessThan(4 * error);
  });
});

describe('knowing a fact', () => {
  const distinct = (id: string, key: string) => [
    ...new Set(referenceRows(id).map((row) => row[key]!)),
  ];
  /** What each fact may be: facts of the building, then of the wall. */
  const building: Readonly<Record<string, readonly (string | number)[]>> = {
    terrain: distinct('prior_terrain', 'terrain'),
    roof: distinct('prior_roof', 'roof'),
    height_m: [5, 12, 17, 25, 35, 45, 60],
  };
  const wall: typeof building = {
    runoff: distinct('prior_runoff', 'runoff'),
    material: distinct('prior_material', 'material'),
    installed: distinct('prior_installed', 'installed').map(Number),
    drainage: distinct('prior_drainage', 'drainage'),
    sheathing: distinct('prior_sheathing', 'sheathing'),
  };
  const values = { ...building, ...wall };
  const rainMm = fc.integer({ min: 50, max: 4000 });
  const recordOf = (options: typeof building) =>
    fc.record(
      Object.fromEntries(
        Object.entries(options).map(([fact, list]) => [
          fact,
          fc.option(fc.constantFrom(...list), { nil: null }),
        ]),
      ),
    );
  /** A building and its wall with some facts blank and others not. */
  const partly = fc
    .tuple(recordOf(building), recordOf(wall), rainMm, fc.constantFrom('house', 'hotel', null))
    .map(([known, cladding, rain_mm, use]) => ({
      building: { rain_mm, use, ...known } as Facts,
      walls: [cladding as Facts],
    }));

  test('keeps the mean of the wall without it between the least and the greatest of what it may be', async () => {
    const fact = fc.constantFrom(...Object.keys(values));
    await fc.assert(
      fc.asyncProperty(partly, fact, async ({ building: known, walls: [cladding] }, name) => {
        const filled = [null, ...values[name]!].map((value) => ({
          building: { ...known, ...(name in building ? { [name]: value } : {}) },
          walls: [{ ...cladding, ...(name in wall ? { [name]: value } : {}) }],
        }));
        const { walls } = await run(filled);
        const [blank, ...means] = walls.map(({ index }) => index as number);
        expect(blank).toBeGreaterThanOrEqual(Math.min(...means) - MEAN_AGREES);
        expect(blank).toBeLessThanOrEqual(Math.max(...means) + MEAN_AGREES);
      }),
      { seed: 3, numRuns: 15 },
    );
  });

  test('is worth 0 to 1, nothing where it is on record, and low never passes high', async () => {
    const many = fc.array(partly, { minLength: 30, maxLength: 30 });
    await fc.assert(
      fc.asyncProperty(many, async (cases) => {
        const { buildings } = await run(cases);
        for (const [i, row] of (buildings as Record<string, number>[]).entries()) {
          const recorded: Facts = { ...cases[i]!.building, ...cases[i]!.walls[0] };
          expect(row.index_low!).toBeLessThanOrEqual(row.index_high!);
          for (const fact of facts) {
            expect(row[`share_${fact}`], fact).toBeGreaterThanOrEqual(0);
            expect(row[`share_${fact}`], fact).toBeLessThanOrEqual(1);
            if ((recorded[fact] ?? null) !== null) expect(row[`share_${fact}`], fact).toBe(0);
          }
        }
      }),
      { seed: 5, numRuns: 4 },
    );
  });

  test('explains all where the wind alone is unknown and the rain has no spread', async () => {
    const exact = { ...site, rain_1: 1000, rain_2: 1000, rain_3: 1000, rain_4: 1000, rain_5: 1000 };
    const { row } = await both({ building: exact, wall: { ...stucco, drainage: 'none' } });
    const shares = Object.fromEntries(facts.map((fact) => [fact, row[`share_${fact}`]]));
    expect(shares.wind).toBeCloseTo(1, 3);
    expect({ ...shares, wind: 1 }).toEqual({
      ...Object.fromEntries(facts.map((f) => [f, 0])),
      wind: 1,
    });
  });
});
