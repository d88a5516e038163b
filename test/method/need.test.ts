import { describe, expect, test } from 'vitest';
import { type Facts, run } from './case.ts';

const needs = async (building: Facts, wall: Facts) => {
  const { walls } = await run([
    {
      building: { rain_mm: 1000, use: 'house', storeys: 2, ...building },
      walls: [{ material: 'stucco', sheathing: 'osb', installed: 2022, ...wall }],
    },
  ]);
  return walls[0]!;
};

describe('the dry limit of IECC Table C301.3: P_in < 0.44 · (T_F − 19.5) is dry', () => {
  // Source: IECC Table C301.3 (definition of dry); the limits at these temperatures by hand.
  test.each([
    [30, 4.62],
    [60, 17.82],
    [75, 24.42],
    [80, 26.62],
  ])('at %d °F the limit is %d in', async (fahrenheit, inches) => {
    const mean_temp_c = ((fahrenheit - 32) * 5) / 9;
    const at = async (rain: number) =>
      (await needs({ rain_mm: rain * 25.4, mean_temp_c }, {})).need_code_now;
    expect(await at(inches - 0.01)).toBe('asks: irc-2021-r703.7.3.1');
    expect(await at(inches + 0.01)).toBe('asks: irc-2021-r703.7.3.2');
  });

  test('at 11 °F the limit is below zero, so no place there is dry', async () => {
    const { need_code_now } = await needs({ rain_mm: 1, mean_temp_c: ((11 - 32) * 5) / 9 }, {});
    expect(need_code_now).toBe('asks: irc-2021-r703.7.3.2');
  });

  test('where a marine climate is possible, dry cannot be told without a zone', async () => {
    const { need_code_now } = await needs(
      { rain_mm: 200, mean_temp_c: 18, marine_possible: 'yes' },
      {},
    );
    expect(need_code_now).toBe('cannot tell: climate_zone');
  });

  test('the letter of the zone decides before any stand-in', async () => {
    expect((await needs({ climate_zone: '3B', rain_mm: 2000 }, {})).need_code_now).toBe(
      'asks: irc-2021-r703.7.3.1',
    );
    expect((await needs({ climate_zone: '4C', rain_mm: 200 }, {})).need_code_now).toBe(
      'asks: irc-2021-r703.7.3.2',
    );
    expect((await needs({ climate_zone: '7', rain_mm: 200 }, {})).need_code_now).toBe(
      'cannot tell: climate_zone',
    );
  });

  test('without a temperature 27.5 in is not dry', async () => {
    expect((await needs({ rain_mm: 27.5 * 25.4 }, {})).need_code_now).toBe(
      'asks: irc-2021-r703.7.3.2',
    );
    expect((await needs({ rain_mm: 27.4 * 25.4 }, {})).need_code_now).toBe(
      'cannot tell: climate_zone',
    );
  });
});

describe('which code governs', () => {
  test('a house is read under the IRC, an apartment under the IBC', async () => {
    expect((await needs({}, {})).need_code_now).toBe('asks: irc-2021-r703.7.3.2');
    expect((await needs({ use: 'apartment' }, {})).need_code_now).toBe('asks: ibc-2021-2510.6.2');
  });
  test('an unknown use is read under both, and where they agree both are named', async () => {
    expect((await needs({ use: null }, {})).need_code_now).toBe(
      'asks: ibc-2021-2510.6.2 or irc-2021-r703.7.3.2',
    );
  });
  test('where they differ the answer is: cannot tell', async () => {
    const { need_code_now } = await needs(
      { use: null, construction_type: 'I' },
      { material: 'eifs_barrier', sheathing: 'gypsum' },
    );
    expect(need_code_now).toBe('cannot tell: use');
  });
  test('an unknown country asks for the region', async () => {
    expect((await needs({ country: null }, {})).need_code_now).toBe('cannot tell: region');
  });
});

describe('what was asked when the wall was built', () => {
  test('a wall of 2012 stood under one of IBC 2000 … 2012, all of which ask for two layers', async () => {
    const { need_code_then } = await needs({ use: 'apartment' }, { installed: 2012 });
    expect(need_code_then).toBe('asks: ibc-2510.6');
  });
  test('a wall of 2011 may have stood under a code of 1999 without a row here', async () => {
    const { need_code_then } = await needs({ use: 'apartment' }, { installed: 2011 });
    expect(need_code_then).toBe('cannot tell: which code was in force');
  });
  test('an unknown year cannot tell', async () => {
    expect((await needs({}, { installed: null })).need_code_then).toBe('cannot tell: installed');
  });
  test('a wall after the 2024 editions cannot tell: nothing is checked after 2021', async () => {
    const { need_code_then } = await needs({}, { installed: 2025 });
    expect(need_code_then).toBe('cannot tell: which code was in force');
  });
});

describe('what rules do not ask', () => {
  test('plaster directly on concrete is asked for nothing', async () => {
    const wall = await needs({}, { sheathing: 'concrete' });
    expect(wall).toMatchObject({
      need_code_now: 'does not ask',
      need_practice: 'does not ask',
      drainage_state: 'not applicable',
    });
  });
  test('an unknown sheathing is named', async () => {
    expect((await needs({}, { sheathing: null })).need_code_now).toBe('cannot tell: sheathing');
  });
});

describe('NBC 9.27.2.2', () => {
  const canadian = { country: 'CA', moisture_index: 1.1, hdd18_c: 3000 };
  test.each([
    ['moisture index above 1.00', {}, 'asks: nbc-9.27.2.2'],
    ['above 0.90 with degree-days below 3400', { moisture_index: 0.95 }, 'asks: nbc-9.27.2.2'],
    [
      'above 0.90 with degree-days from 3400',
      { moisture_index: 0.95, hdd18_c: 3400 },
      'does not ask',
    ],
    ['0.90', { moisture_index: 0.9 }, 'does not ask'],
    ['no moisture index', { moisture_index: null }, 'cannot tell: moisture_index'],
    ['no degree-days', { moisture_index: 0.95, hdd18_c: null }, 'cannot tell: hdd18_c'],
    ['an office', { use: 'office' }, 'cannot tell: Part 5 applies'],
  ])('%s', async (_, building, expected) => {
    expect((await needs({ ...canadian, ...building }, {})).need_code_now).toBe(expected);
  });
  test('asks for 10 mm, which drainage is then measured against', async () => {
    expect((await needs(canadian, {})).gap_asked_mm).toBe(10);
  });
});

describe('practice in a rainy climate', () => {
  test.each([
    [0.9, 'asks: practice-rainy-climate'],
    [0.89, 'cannot tell: rain'],
    [0.11, 'cannot tell: rain'],
    [0.1, 'does not ask'],
  ])('with a probability of %d over 20 in: %s', async (p, expected) => {
    expect((await needs({ p_rain_over_threshold: p }, {})).need_practice).toBe(expected);
  });
});
