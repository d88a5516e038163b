import { beforeAll, describe, expect, test } from 'vitest';
import { openNative } from '../../analysis/engine/native.ts';
import type { Engine } from '../../analysis/engine/port.ts';
import { stepsAfter } from '../../analysis/pipeline.ts';
import { memorySource } from '../../analysis/read/memory-source.ts';
import { referenceRows, referenceTables } from '../../analysis/reference.ts';
import { createSession } from '../../analysis/session.ts';
import type { Analyst, Inputs } from '../../analysis/session-types.ts';
import type { SettingsChanges } from '../../analysis/settings.ts';
import { generateDemo } from '../../data/demo/generate.ts';
import { recordFile } from '../weather/hours.ts';
import { assets, inputs } from './open.ts';

/** Every table and view that stands, by name: how many rows, and a hash of them that their order does not change. */
async function standing(engine: Engine): Promise<Record<string, string>> {
  const names = await engine.query(
    `SELECT table_name AS name FROM duckdb_tables() UNION ALL SELECT view_name FROM duckdb_views() WHERE NOT internal`,
  );
  const found: Record<string, string> = {};
  for (const name of names.cols.name as string[]) {
    const text = `SELECT count(*) || ' ' || coalesce(sum(hash(t)), 0) AS said FROM "${name}" t`;
    found[name] = (await engine.query(text)).cols.said![0] as string;
  }
  return found;
}

const { buildingsCsv, wallsCsv } = generateDemo({ buildings: 60, seed: 5 });
const given = inputs(buildingsCsv, wallsCsv);

/** Another value of the setting, or the other side of a switch; thresholds of tiers stay in their order. */
function other(name: string, value: number): number {
  if (name === 'adequacy_floor' || name === 'practice_sure_not') return 0.85;
  // None of these rows is of a later year than it ships with, so that none is read otherwise.
  if (name === 'as_of') return value + 10;
  if (name === 'tier_first_look') return 50;
  if (name === 'tier_next_look') return 20;
  if (name === 'practice_counts' || name === 'age_counts') return 1 - value;
  if (value === 0) return 0.5;
  return value < 0.2 ? value * 5 : value * 0.7;
}

/** The codes in force in a state, earlier than they are taken to be. */
const inForce = (region: string) =>
  ['IBC', 'IRC'].map((code) => ({ region, code, edition: 2009, from_year: 1990 }));

const changes: readonly (readonly [string, SettingsChanges])[] = [
  ...referenceRows('constants')
    .filter(({ setting }) => setting === 'yes')
    .map(
      ({ name, value }) =>
        [name!, { constants: { [name!]: other(name!, Number(value)) } }] as const,
    ),
  ...referenceTables
    .filter(({ file, rows }) => file.startsWith('priors/') && 'weight' in rows[0]!)
    .map(
      ({ id, rows }) =>
        [
          id,
          { priors: { [id]: rows.map((row, i) => ({ ...row, weight: 1 + (i % 3) })) } },
        ] as const,
    ),
  ['editions', { editions: ['WA', 'OR', 'TX', 'MN', 'PA', 'AL', 'NE'].flatMap(inForce) }],
  ['unit costs', { unit_costs: { currency: 'USD', cost_per_m2: [1, 2, 3], share: [0, 0.5, 1] } }],
  ['nothing', {}],
  [
    'several at once',
    {
      constants: { weight_load: 2, practice_counts: 0, built_in_shift: 0 },
      priors: { prior_wind: referenceRows('prior_wind').map((row, i) => ({ ...row, weight: i })) },
    },
  ],
];

/** Of those the example has nothing that they speak of: stations and weather of one's own, a grid without stations. */
const ofOthers = ['own_shift', 'own_rho', 'prior_orientation', 'grid_ln_sd', 'grid_reach_km'];
const silent = new Set([...ofOthers, 'unit costs', 'nothing']);

const file = (name: string, head: string, rows: readonly string[]) =>
  memorySource(name, `${[head, ...rows].join('\n')}\n`);

/** A lattice of rain every two degrees that ends somewhat south of the example's northernmost buildings. */
const lattice = Array.from({ length: 15 * 31 }, (_, i) => {
  const [latitude, longitude] = [22 + 2 * Math.floor(i / 31), -126 + 2 * (i % 31)];
  return `${latitude},${longitude},${600 + 9 * i}`;
});
const gauges = Array.from(
  { length: 60 },
  (_, i) => `${26 + (i % 10) * 2.3},${-122 + i},${500 + 13 * ((i * 7) % 40)}`,
);

const portfolios: readonly (readonly [string, Inputs, ReadonlySet<string>])[] = [
  [
    'the example',
    given,
    new Set(changes.map(([name]) => name).filter((name) => !silent.has(name))),
  ],
  [
    'stations and hourly weather of one’s own',
    {
      ...given,
      stations: file('gauges.csv', 'latitude,longitude,normal_mm', gauges),
      weather: memorySource('airfield.csv', recordFile('airfield.csv')),
    },
    new Set(['own_shift', 'own_rho', 'prior_orientation', 'weight_load']),
  ],
  [
    'a grid alone, and places beyond it',
    { ...given, rain: file('lattice.csv', 'latitude,longitude,rain_mm', lattice) },
    new Set(['grid_ln_sd', 'grid_reach_km', 'node_outer_z']),
  ],
];

/** What was made of the settings, without the tables that only hold them. */
const scoredIn = (all: Readonly<Record<string, string>>) =>
  Object.entries(all).filter(([name]) => !/^(?:k|prior_.*|edition_in_force)$/.test(name));

describe.each(portfolios)(
  'other settings score again what they touch, as if all were scored: %s',
  (_, portfolio, moving) => {
    let again: Engine;
    let anew: Engine;
    let analyst: Analyst;
    let fresh: Analyst;
    let shipped: Record<string, string>;
    beforeAll(async () => {
      [again, anew] = await Promise.all([openNative(), openNative()]);
      [analyst, fresh] = [createSession(again, assets()), createSession(anew, assets())];
      await analyst.open(portfolio);
      shipped = await standing(again);
    });

    const all = portfolio === given;
    test.each(all ? changes : changes.filter(([name]) => moving.has(name)))(
      '%s',
      async (name, settings) => {
        // From the settings of the case before: two things change, one of them back.
        await analyst.rescore(settings);
        await fresh.open({ ...portfolio, settings });
        const made = await standing(again);
        expect(made).toEqual(await standing(anew));
        // A setting that moves nothing is one that nobody reads.
        if (moving.has(name)) expect(scoredIn(made)).not.toEqual(scoredIn(shipped));
        else expect(scoredIn(made)).toEqual(scoredIn(shipped));
      },
      60_000,
    );
  },
);

test('what no statement reads runs nothing; a threshold leaves walls, need and index as they are', () => {
  expect(stepsAfter(['no such name'])).toEqual([]);
  expect(stepsAfter(['tier_first_look']).map(({ name }) => name)).toEqual([
    'tiered',
    'rank_of',
    'ranking',
  ]);
});

test('what was dropped is made again for those that read it, and dropped again', () => {
  const names = stepsAfter(['weight_load']).map(({ name }) => name);
  expect(names[0]).toBe('alike');
  expect(names).toEqual(
    expect.arrayContaining(['spread', 'wetting', 'alike, done', 'spread, done']),
  );
  expect(names).not.toContain('wall_row');
});
