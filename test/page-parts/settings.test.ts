import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultSettings, withSettings } from '../../analysis/settings.ts';
import { changedWords } from '../../dashboard/settings/changed-words.ts';
import { pruned, withConstant } from '../../dashboard/settings/changes.ts';
import {
  areaWords,
  budgetOf,
  budgetWords,
  costsOf,
  formOf,
  missingIn,
  roundSum,
  shownCost,
  storedCost,
} from '../../dashboard/settings/costs.ts';
import { changesOfText, settingGroups, troubleOf } from '../../dashboard/settings/draft.ts';
import {
  priorRows,
  priorTables,
  sharesOf,
  withoutPrior,
  withWeight,
} from '../../dashboard/settings/priors.ts';

describe('settings under change', () => {
  it('every setting of the constants stands in one group', () => {
    const names = settingGroups.flatMap(({ rows }) => rows.map(({ name }) => name));
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(defaultSettings.constants).toHaveProperty(name!);
  });

  it('a constant put back to what ships is no change', () => {
    const changed = withConstant({}, 'half_load_l_m2', 60);
    expect(changed).toEqual({ constants: { half_load_l_m2: 60 } });
    expect(withConstant(changed, 'half_load_l_m2', 100)).toEqual({});
  });

  it('an emptied field asks for a number, in words', () => {
    expect(troubleOf(withConstant({}, 'half_load_l_m2', Number.NaN))).toBe(
      'A number is needed here.',
    );
    expect(troubleOf(withWeight({}, 'prior_roof', 0, Number.NaN))).toBe('A number is needed here.');
    expect(troubleOf(withWeight({}, 'prior_roof', 0, 1.5))).toContain('whole number');
  });

  it('a file that says no unit costs is taken, and changed further', () => {
    const read = changesOfText('{"constants":{"half_load_l_m2":60},"unit_costs":null}');
    expect(withConstant(read, 'weight_load', 2)).toEqual({
      constants: { half_load_l_m2: 60, weight_load: 2 },
    });
    expect(pruned({ unit_costs: null, editions: [] })).toEqual({});
  });

  it('what differs is counted; money scores nothing and is not', () => {
    expect(changedWords({})).toBe('');
    expect(changedWords({ unit_costs: { currency: 'USD' } })).toBe('');
    expect(changedWords({ constants: { weight_load: 2 }, editions: [{}, {}] })).toBe(
      '1 constant, 2 editions in force',
    );
  });
});

describe('priors', () => {
  it('a weight changed and put back is the prior as shipped', () => {
    const shipped = Number(priorRows({}, 'prior_terrain')[0]!.weight);
    const changed = withWeight({}, 'prior_terrain', 0, shipped + 5);
    expect(withSettings(changed).priors.prior_terrain![0]!.weight).toBe(`${shipped + 5}`);
    expect(withWeight(changed, 'prior_terrain', 0, shipped)).toEqual({});
    expect(withoutPrior(changed, 'prior_terrain')).toEqual({});
  });

  it('shares add up to one under each condition', () => {
    for (const { rows } of priorTables) {
      const conditions = Object.keys(rows[0]!).filter((k) => k !== 'weight' && k !== 'source');
      const groups = new Set(
        rows.map((row) =>
          conditions
            .slice(0, -1)
            .map((k) => row[k])
            .join(),
        ),
      );
      const sum = sharesOf(rows).reduce((a, b) => a + b, 0);
      expect(sum).toBeCloseTo(groups.size, 9);
    }
  });
});

describe('unit costs', () => {
  const costs = {
    currency: 'USD',
    cost_per_m2: [150, 250, 400],
    share: [0.1, 0.2, 0.5],
  } as const;

  it('come to nothing until every field is filled', () => {
    const form = formOf(costs);
    expect(costsOf(form)).toEqual(costs);
    expect(costsOf({ ...form, currency: ' ' })).toBeNull();
    expect(missingIn({ ...form, share: ['0.1', '', ''] })).toBe(2);
    expect(missingIn(formOf(null))).toBe(0);
  });

  it('typed per ft² read the same after their way through m²', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9_999_999 }), (cents) => {
        const typed = String(cents / 100);
        expect(shownCost(storedCost(typed, 'american'), 'american')).toBe(typed);
      }),
    );
  });

  it('1.00 USD/ft² is 10.76 USD/m² (international foot, 0.3048 m exactly, NIST SP 811)', () => {
    expect(Number(storedCost('1', 'american'))).toBeCloseTo(10.7639, 4);
  });

  it('the budget is area by cost by share at each end, said to three digits', () => {
    expect(budgetOf(1000, costs)).toEqual([15000, 50000, 200000]);
    expect(roundSum(1_326_513)).toBe(1_330_000);
  });

  it('of walls without an area on record there is no sum, not a sum of 0', () => {
    const costs = { currency: 'USD', cost_per_m2: [1, 2, 4], share: [0.5, 0.5, 1] } as const;
    const none = { tier: 'First look', walls: 3, areaM2: 0, unknownArea: 3 } as const;
    expect(budgetWords(none, costs)).toEqual(['no record', 'no record', 'no record']);
    expect(areaWords(none, 'metric')).toBe('no record');
    const some = { ...none, areaM2: 1000, unknownArea: 2 };
    expect(budgetWords(some, costs)).toEqual(['500', '1,000', '4,000']);
    expect(areaWords({ ...none, walls: 0, unknownArea: 0 }, 'metric')).toMatch(/^0/);
  });
});
