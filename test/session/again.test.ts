import { expect, test } from 'vitest';
import { openNative } from '../../analysis/engine/native.ts';
import type { Engine } from '../../analysis/engine/port.ts';
import { stepsAfter } from '../../analysis/pipeline.ts';
import { referenceRows, referenceTables } from '../../analysis/reference.ts';
import { createSession } from '../../analysis/session.ts';
import type { SettingsChanges } from '../../analysis/settings.ts';
import { generateDemo } from '../../data/demo/generate.ts';
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
    .filter(({ name, setting }) => setting === 'yes' && name !== 'as_of')
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

/**
 * Settings that say nothing of this portfolio, which has no stations and no hourly weather of its own and lies on the
 * grid, and those that are for the reader.
 */
const silent = new Set([
  ...['own_shift', 'own_rho', 'prior_orientation', 'grid_ln_sd', 'grid_reach_km'],
  ...['unit costs', 'nothing'],
]);

/** What was made of the settings, without the tables that only hold them. */
const scoredIn = (all: Readonly<Record<string, string>>) =>
  Object.entries(all).filter(([name]) => !/^(?:k|prior_.*|edition_in_force)$/.test(name));

const [again, anew] = await Promise.all([openNative(), openNative()]);
const analyst = createSession(again, assets());
await analyst.open(given);
const shipped = await standing(again);
const fresh = createSession(anew, assets());

test.each(changes)(
  'other settings score again what they touch, as if all were scored: %s',
  async (name, settings) => {
    // From the settings of the case before: two things change, one of them back.
    await analyst.rescore(settings);
    await fresh.open({ ...given, settings });
    const made = await standing(again);
    expect(made).toEqual(await standing(anew));
    // A setting that moves nothing is one that nobody reads.
    if (silent.has(name)) expect(scoredIn(made)).toEqual(scoredIn(shipped));
    else expect(scoredIn(made)).not.toEqual(scoredIn(shipped));
  },
  60_000,
);

test('another year asks for the files to be read again', async () => {
  await expect(analyst.rescore({ constants: { as_of: 2020 } })).rejects.toThrow('open the files');
});

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
