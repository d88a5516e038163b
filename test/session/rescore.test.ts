import { beforeAll, describe, expect, test } from 'vitest';
import { openNative } from '../../analysis/engine/native.ts';
import type { Engine } from '../../analysis/engine/port.ts';
import { createSession } from '../../analysis/session.ts';
import type { Analyst } from '../../analysis/session-types.ts';
import { type SettingsChanges, SettingsError, withSettings } from '../../analysis/settings.ts';
import { generateDemo } from '../../data/demo/generate.ts';
import { assets, inputs, session } from './open.ts';

const { buildingsCsv, wallsCsv } = generateDemo({ buildings: 160, seed: 5 });
let analyst: Analyst;
beforeAll(async () => {
  analyst = await session();
  await analyst.open(inputs(buildingsCsv, wallsCsv));
});

describe('settings', () => {
  test('that say nothing new change nothing', async () => {
    expect(await analyst.rescore({})).toEqual({ firstTwenty: 0, tier: 0 });
    expect(await analyst.settings()).toEqual({});
  });

  test('a lower threshold lifts tiers and leaves the order; back again, nothing is left of it', async () => {
    const before = await analyst.write('csv', 'metric');
    const effect = await analyst.rescore({ constants: { tier_first_look: 30 } });
    expect(effect.firstTwenty).toBe(0);
    expect(effect.tier).toBeGreaterThan(0);
    expect(await analyst.settings()).toEqual({ constants: { tier_first_look: 30 } });
    await analyst.rescore({});
    expect(await analyst.write('csv', 'metric')).toEqual(before);
  });

  test('a prior of the user’s own is drawn instead of ours', async () => {
    const index = async () => {
      const [first] = await analyst.rows(
        await analyst.order({ by: 'index', on: { material: { among: [null] } } }),
      );
      return first!.index as number;
    };
    const before = await index();
    const masonry = [{ material: 'wood', weight: 1 }];
    await analyst.rescore({ priors: { prior_material: masonry } });
    expect(await index()).not.toBe(before);
    await analyst.rescore({});
    expect(await index()).toBe(before);
  });

  test('that are being scored are read whole: what was asked meanwhile is of the old scoring or of the new', async () => {
    const all = Int32Array.from({ length: 160 }, (_, b) => b);
    const read = async () => ({
      rows: await analyst.rows(all),
      first: (await analyst.building(3)).walls,
    });
    const before = await read();
    const running = analyst.rescore({ constants: { weight_load: 2 } });
    const meanwhile = [];
    for (let i = 0; i < 20; i++) {
      meanwhile.push(read());
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
    await running;
    const after = await read();
    expect(after.rows).not.toEqual(before.rows);
    const whole = [before, after].map((one) => JSON.stringify(one.rows));
    for (const { rows } of await Promise.all(meanwhile))
      expect(whole).toContain(JSON.stringify(rows));
    await analyst.rescore({});
  });

  test('that are being scored keep no rows waiting until theirs are remade', async () => {
    const all = Int32Array.from({ length: 160 }, (_, b) => b);
    const native = await openNative();
    let meanwhile: Promise<unknown> | undefined;
    const engine: Engine = {
      ...native,
      query: async (text, params, signal) => {
        // Waiting for rows in the midst of a scoring ends only where rows do not wait for the scoring.
        if (meanwhile === undefined && asking && text.includes('TABLE assembly_draw')) {
          meanwhile = one.rows(all);
          await meanwhile;
        }
        return native.query(text, params, signal);
      },
    };
    let asking = false;
    const one = createSession(engine, assets());
    await one.open(inputs(buildingsCsv, wallsCsv));
    const before = await one.rows(all);
    asking = true;
    await one.rescore({ constants: { weight_deficiency: 2 } });
    expect(await meanwhile).toEqual(before);
    expect(await one.rows(all)).not.toEqual(before);
  });

  test('given back from the sidecar of an export make the same bytes', async () => {
    const changes: SettingsChanges = {
      constants: { weight_load: 0.5, as_of: 2028 },
      editions: [{ region: 'WA', code: 'IBC', edition: 2009, from_year: 2010 }],
    };
    await analyst.rescore(changes);
    const first = await analyst.write('json', 'metric');
    const told = JSON.parse(first.about);
    await analyst.rescore({});
    await analyst.rescore(told.settings);
    expect(await analyst.write('json', 'metric')).toEqual(first);
    await analyst.rescore({});
  });

  test.each([
    [{ constants: { colour: 1 } }, 'no setting "colour"'],
    [{ constants: { weight_load: '2' } }, 'a number is needed'],
    [{ constants: { interval_z: 2 } }, 'a constant of the method'],
    [{ constants: { weight_load: 0, weight_deficiency: 0, weight_susceptibility: 0 } }, 'all 0'],
    [{ constants: { weight_load: 4 } }, 'between 0 and 3'],
    [{ constants: { half_load_l_m2: -1 } }, 'below zero'],
    [{ constants: { tier_keep_watch: 60 } }, 'must fall'],
    [{ priors: { colour: [] } }, 'no prior "colour"'],
    [{ priors: { prior_terrain: [{ terrain: 'lunar', weight: 1 }] } }, 'no value "lunar"'],
    [{ priors: { prior_terrain: [{ terrain: 'severe', weight: 1.5 }] } }, 'whole number'],
    [{ priors: { prior_terrain: [{ terrain: 'severe', weight: 0 }] } }, 'no weight above 0'],
    [
      { priors: { prior_roof: [{ use_group: 'house', roof: 'low', weight: 1 }] } },
      'no weight above 0 for "other"',
    ],
    [{ editions: [{ region: 'WA', code: 'IBC', edition: 2010, from_year: 2010 }] }, 'not one that'],
    [{ weights: {} }, 'and no "weights"'],
    [{ unit_costs: { currency: '', cost_per_m2: [1, 2, 3], share: [0, 0.5, 1] } }, 'a currency'],
    [{ unit_costs: { currency: 'USD', cost_per_m2: [1, 2], share: [0, 0.5, 1] } }, 'three numbers'],
    [{ unit_costs: { currency: 'USD', cost_per_m2: [3, 2, 1], share: [0, 0.5, 1] } }, 'must rise'],
    [
      { unit_costs: { currency: 'USD', cost_per_m2: [1, 2, 3], share: [0, 1, 2] } },
      'between 0 and 1',
    ],
  ] as [SettingsChanges, string][])('%j is refused in words', (changes, words) => {
    expect(() => withSettings(changes)).toThrow(SettingsError);
    expect(() => withSettings(changes)).toThrow(words);
  });

  test('refused settings leave what was scored as it was', async () => {
    const before = await analyst.write('csv', 'metric');
    await expect(analyst.rescore({ constants: { weight_load: 9 } })).rejects.toThrow(
      'between 0 and 3',
    );
    expect(await analyst.write('csv', 'metric')).toEqual(before);
  });
});

describe('an edition in force', () => {
  const list = `building_id,latitude,longitude,region,use,storeys,climate_zone
A,47.6,-122.3,WA,apartment,4,4C
B,45.5,-122.6,OR,apartment,4,4C
`;
  const wall = (id: string, year: number) => `${id},w,stucco,osb,${year}\n`;
  const records = `building_id,wall_id,material,sheathing,installed\n${wall('A', 2011)}${wall('B', 2011)}`;
  const needs = async (one: Analyst) =>
    (
      await one.rows(
        await one.order({ by: 'index', sort: { column: 'building_id', descending: false } }),
      )
    ).map(({ need_code_then, need_code_now }) => [need_code_then, need_code_now]);

  test('answers for its region alone, then and now', async () => {
    const one = await session();
    await one.open(inputs(list, records));
    const unset = ['cannot tell: which code was in force', 'asks: ibc-2021-2510.6.2'];
    expect(await needs(one)).toEqual([unset, unset]);
    const editions = [
      { region: 'WA', code: 'IBC', edition: 2009, from_year: 2010 },
      { region: 'WA', code: 'IBC', edition: 2018, from_year: 2021 },
    ];
    await one.rescore({ editions });
    expect(await needs(one)).toEqual([['asks: ibc-2510.6', 'asks: ibc-2018-2510.6'], unset]);
  });

  test('stands on the timeline, with the window of a wall whose edition is not set', async () => {
    const one = await session();
    await one.open(inputs(list, records));
    const possible = async () =>
      (await one.building(0)).timeline
        .filter(({ stoodThen }) => stoodThen)
        .map(({ label }) => label);
    expect(await possible()).toEqual([
      'other US model codes to 1999',
      'IBC 2000',
      'IBC 2003',
      'IBC 2006',
      'IBC 2009',
    ]);
    await one.rescore({
      editions: [{ region: 'WA', code: 'IBC', edition: 2009, from_year: 2010 }],
    });
    expect(await possible()).toEqual(['IBC 2009']);
    const { timeline } = await one.building(0);
    expect(timeline.filter(({ standsNow }) => standsNow).map(({ label }) => label)).toEqual([
      'IBC 2009',
    ]);
  });
});

describe('records worth chasing', () => {
  test('are ranked by what they settle; each question settles more than those before it', async () => {
    const { scored, settled, facts, questions } = await analyst.chase();
    expect(settled).toBeLessThan(scored);
    expect(facts.length).toBeGreaterThan(4);
    for (const [i, fact] of facts.entries()) {
      expect(fact.buildings).toBeGreaterThan(0);
      expect(fact.share).toBeGreaterThan(0);
      expect(fact.share).toBeLessThanOrEqual(1);
      if (i > 0) expect(fact.settles).toBeLessThanOrEqual(facts[i - 1]!.settles);
    }
    expect(questions).toHaveLength(3);
    expect(questions[0]!.settled).toBeGreaterThan(settled);
    expect(questions[2]!.settled).toBeGreaterThan(questions[0]!.settled);
    expect(questions[0]!.fact).toBe(facts[0]!.fact);
  });

  test('unknowns of a row stand in order of their share of the variance', async () => {
    const rows = await analyst.rows(await analyst.order({ by: 'index' }));
    for (const row of rows) {
      const shares = `${row.unknowns}`
        .split(';')
        .filter(Boolean)
        .map((fact) => row[`share_${fact}`] as number);
      expect(shares).toEqual(shares.toSorted((a, b) => b - a));
    }
  });
});

describe('wall area by tier', () => {
  test('adds up to every scored wall, and costs move no place', async () => {
    const before = await analyst.write('csv', 'metric');
    const areas = await analyst.wallAreas();
    expect(areas.every(({ walls, unknownArea }) => unknownArea <= walls)).toBe(true);
    expect(areas.reduce((sum, { areaM2 }) => sum + areaM2, 0)).toBeGreaterThan(1000);
    const unit_costs = { currency: 'USD', cost_per_m2: [100, 200, 300], share: [0.1, 0.2, 0.3] };
    expect(await analyst.rescore({ unit_costs })).toEqual({ firstTwenty: 0, tier: 0 });
    expect((await analyst.write('csv', 'metric')).bytes).toEqual(before.bytes);
    expect(await analyst.settings()).toEqual({ unit_costs });
    await analyst.rescore({});
  });
});

describe('the rain of a run', () => {
  test('is adjusted by the built-in normals, which the report checks: RMSE ≤ 4.6 in, agreement ≥ 0.93', async () => {
    const { adjusted, stations, checks, parameters } = await analyst.rainReport();
    expect(adjusted).toBe(true);
    expect(stations).toBe(70);
    const row = checks.find(
      ({ estimate, leftOut, shifted }) =>
        estimate === 'adjusted' && leftOut === 'one by one' && !shifted,
    )!;
    expect(row.rmseIn).toBeLessThanOrEqual(4.6);
    expect(row.agreement).toBeGreaterThanOrEqual(0.93);
    expect(parameters).toMatchObject({ period_shift: 0.15, rho: 0.1 });
  });

  test('moves with the period shift', async () => {
    const rain = async () => (await analyst.rows(Int32Array.of(0)))[0]!.rain_mm as number;
    const before = await rain();
    await analyst.rescore({ constants: { built_in_shift: 0 } });
    expect(before / (await rain())).toBeCloseTo(Math.exp(0.15), 2);
    await analyst.rescore({});
  });

  test('with a station file of one’s own is told by that file', async () => {
    const one = await session();
    const rows = Array.from(
      { length: 40 },
      (_, i) => `${30 + (i % 8) * 2},${-120 + i},${600 + 20 * i}`,
    );
    const stations = inputs(`latitude,longitude,normal_mm\n${rows.join('\n')}\n`).buildings;
    const report = await one.open({
      ...inputs(buildingsCsv, wallsCsv),
      stations: { ...stations, name: 'gauges.csv' },
    });
    expect(report.files.map(({ role }) => role)).toContain('stations');
    const { source, sentence } = await one.rainReport();
    expect(`${source} ${sentence}`).toMatch(/gauges\.csv|grid’s alone/);
  });
});
