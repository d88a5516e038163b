import { describe, expect, test } from 'vitest';
import { openNative } from '../../analysis/engine/native.ts';
import { referenceRows } from '../../analysis/reference.ts';
import { defaultSettings, type Settings } from '../../analysis/settings.ts';
import { quantities } from '../../analysis/units.ts';
import { loadWind, noRecord, type WindInRain } from '../../analysis/wetting/wind.ts';
import { inputs, session } from '../session/open.ts';
import { run } from './case.ts';

/** One wall whose every exposure fact is on record; U is the mean of its prior, 4 m/s. */
const wall = async (building: object, runoff: 'yes' | 'no') => {
  const { walls } = await run([
    { building: { use: 'house', ...building }, walls: [{ material: 'stucco', runoff }] },
  ]);
  return walls[0]!.wetting_l_m2;
};

describe('wetting = 0.2 · F_E · F_D · κ · U · rain', () => {
  // Values by hand from the form of ASHRAE Standard 160, κ = 1/π, U = 4 m/s.
  test.each([
    [
      'medium, below 10 m, steep roof, 1000 mm',
      { rain_mm: 1000, terrain: 'medium', height_m: 5, roof: 'steep' },
      'no',
      89.12677,
    ],
    [
      'severe, above 50 m, runoff, 1000 mm',
      { rain_mm: 1000, terrain: 'severe', height_m: 60, roof: 'low' },
      'yes',
      381.97186,
    ],
    [
      'severe, below 10 m, low roof, 1200 mm',
      { rain_mm: 1200, terrain: 'severe', height_m: 9, roof: 'low' },
      'no',
      0.2 * 1.3 * 0.5 * (1 / Math.PI) * 4 * 1200,
    ],
  ] as const)('%s', async (_, building, runoff, expected) => {
    expect(await wall(building, runoff)).toBeCloseTo(expected, 4);
  });

  // Source: ASHRAE Standard 160, rain exposure factor, from memory.
  test.each([
    [9.9, 1.0],
    [10, 1.1],
    [14.9, 1.1],
    [15, 1.2],
    [20, 1.3],
    [30, 1.4],
    [40, 1.5],
    [50, 1.5],
  ])('at %d m in medium terrain F_E is %d', async (height_m, factor) => {
    const base = { rain_mm: 1000, terrain: 'medium', roof: 'steep' };
    const low = (await wall({ ...base, height_m: 5 }, 'no')) as number;
    expect(await wall({ ...base, height_m }, 'no')).toBeCloseTo(low * factor, 3);
  });

  test('storeys stand in for a height at 3.0 m each', async () => {
    const base = { rain_mm: 1000, terrain: 'medium', roof: 'steep' };
    expect(await wall({ ...base, storeys: 5 }, 'no')).toBe(
      await wall({ ...base, height_m: 15 }, 'no'),
    );
  });

  test('a place without rain has no wetting and no index, and is Not scored', async () => {
    const { buildings } = await run([{ building: {}, walls: [{ material: 'stucco' }] }]);
    expect(buildings[0]).toMatchObject({ wetting_l_m2: null, index: null, tier: 4, rank: null });
  });
});

describe('units', () => {
  // Sources: NIST SP 811 (inch, foot, US gallon exact by definition); the facts themselves are common practice.
  test('20 in of rain are 508 mm, 1/4 in is 6.35 mm, 3/16 in is 4.7625 mm', () => {
    expect(20 / quantities.rain.factor).toBeCloseTo(508, 9);
    expect(0.25 / quantities.gap.factor).toBeCloseTo(6.35, 9);
    expect(0.1875 / quantities.gap.factor).toBeCloseTo(4.7625, 9);
  });
  test('1 gal/ft² is 40.745833 L/m²', () => {
    expect(1 / quantities.wetting.factor).toBeCloseTo(40.745833, 5);
  });
});

describe('κ without a record', () => {
  // Source: R, integrate(function(d) pmax(0, cos(d)) / (2 * pi), 0, 2 * pi): 0.3183099.
  test('is 1/π, the mean of max(0, cos) over the circle', async () => {
    const n = 36_000;
    const mean =
      Array.from({ length: n }, (_, i) => Math.max(0, Math.cos((2 * Math.PI * i) / n))).reduce(
        (a, b) => a + b,
      ) / n;
    expect(defaultSettings.constants.kappa_without_record).toBeCloseTo(mean, 6);
    expect(defaultSettings.constants.kappa_without_record).toBeCloseTo(0.3183099, 7);
  });
});

describe('wind and orientation of the user’s own', () => {
  const only = (id: string, key: string, value: string) => ({
    [id]: referenceRows(id).map((row) => ({ ...row, weight: row[key] === value ? '1' : '0' })),
  });
  const found = async (record: WindInRain, priors: Settings['priors'], text: string) => {
    const engine = await openNative();
    await loadWind(engine, record, { ...defaultSettings, priors });
    const { cols } = await engine.query(text);
    return Object.fromEntries(Object.entries(cols).map(([name, column]) => [name, [...column]]));
  };

  test('U without a record is drawn over their prior', async () => {
    const priors = only('prior_wind', 'wind_m_s', '5');
    const wind = await found(
      noRecord(defaultSettings.constants),
      priors,
      'SELECT wind_m_s FROM wind WHERE weight > 0',
    );
    expect(wind).toEqual({ wind_m_s: [5] });
  });

  test('the ledger says whose prior the wind is', async () => {
    const analyst = await session({
      ...defaultSettings,
      priors: {
        prior_wind: referenceRows('prior_wind').map((row) => ({ ...row, source: 'the user' })),
      },
    });
    await analyst.open(
      inputs('building_id,latitude,longitude\nA,40,-90\n', 'building_id,material\nA,stucco\n'),
    );
    const told = JSON.stringify(await analyst.ledger(0, 'wetting_l_m2'));
    expect(told).toContain('prior_wind: the user; no wind record');
  });

  test('a wall whose azimuth is not on record is drawn over their prior, where there is a record of the wind', async () => {
    const record = { record: 'hourly.csv', wind: 4, kappa: Float64Array.from(Array(360).keys()) };
    const priors = only('prior_orientation', 'azimuth_deg', '90');
    const facing = 'SELECT azimuth_deg, kappa FROM facing WHERE known IS NULL AND weight > 0';
    expect(await found(record, priors, facing)).toEqual({ azimuth_deg: [90], kappa: [90] });
  });
});
