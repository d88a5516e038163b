import { describe, expect, it } from 'vitest';
import { pruned, withConstant } from '../../dashboard/settings/changes.ts';
import { priorRows, withoutPrior, withWeight } from '../../dashboard/settings/priors.ts';
import { settled, weightField } from '../../dashboard/settings/taken.ts';

const constants = (of: Readonly<Record<string, number>>) =>
  Object.entries(of).reduce((before, [name, value]) => withConstant(before, name, value), {});

describe('what is taken of settings as typed', () => {
  it('an invalid field holds back nothing but itself, before and after it', () => {
    const typed = constants({ weight_load: 2, half_load_l_m2: -5, age_cap_yr: Number.NaN });
    const first = settled({}, constants({ half_load_l_m2: -5 }));
    expect(first.taken).toEqual({});
    const { taken, troubles } = settled(first.taken, typed);
    expect(taken).toEqual({ constants: { weight_load: 2 } });
    expect([...troubles.keys()].sort()).toEqual(['age_cap_yr', 'half_load_l_m2']);
    expect(troubles.get('half_load_l_m2')).toContain('cannot be below zero');
    expect(troubles.get('age_cap_yr')).toBe('A number is needed here.');
  });

  it('where a field turns invalid, the value it was taken with stands', () => {
    const before = constants({ half_load_l_m2: 60 });
    const { taken, troubles } = settled(before, withConstant(before, 'half_load_l_m2', -1));
    expect(taken).toEqual(before);
    expect(troubles.size).toBe(1);
  });

  it('a field put back to what ships is taken beside an invalid one', () => {
    const before = constants({ half_load_l_m2: 60 });
    const { taken } = settled(before, constants({ weight_load: 9 }));
    expect(taken).toEqual({});
  });

  it('thresholds typed one after the other are taken as soon as they fall, in whatever order', () => {
    const one = settled({}, constants({ tier_next_look: 5 }));
    expect([...one.troubles.keys()]).toEqual(['tier_next_look']);
    const both = constants({ tier_next_look: 5, tier_keep_watch: 2, half_load_l_m2: -1 });
    const two = settled(one.taken, both);
    expect(two.taken).toEqual(constants({ tier_next_look: 5, tier_keep_watch: 2 }));
    expect([...two.troubles.keys()]).toEqual(['half_load_l_m2']);
  });

  it('of three weights at 0 the last typed is refused, and beside its own field', () => {
    const two = constants({ weight_load: 0, weight_deficiency: 0 });
    const { taken, troubles } = settled(two, withConstant(two, 'weight_susceptibility', 0));
    expect(taken).toEqual(two);
    expect([...troubles.keys()]).toEqual(['weight_susceptibility']);
  });

  it('a weight of a prior is taken beside an invalid one of the same prior', () => {
    const id = 'prior_terrain';
    const own = Number(priorRows({}, id)[1]!.weight) + 5;
    const typed = withWeight(withWeight({}, id, 0, 1.5), id, 1, own);
    const { taken, troubles } = settled({}, typed);
    expect(priorRows(taken, id)[1]!.weight).toBe(`${own}`);
    expect(priorRows(taken, id)[0]!.weight).toBe(priorRows({}, id)[0]!.weight);
    expect([...troubles.keys()]).toEqual([weightField(id, 0)]);
    expect(settled(taken, withoutPrior(typed, id))).toEqual({ taken: {}, troubles: new Map() });
  });

  it('costs that do not rise leave those taken before, and the rest is taken', () => {
    const costs = { currency: 'USD', cost_per_m2: [150, 250, 400], share: [0.1, 0.2, 0.5] };
    const before = { unit_costs: costs };
    const typed = pruned({
      unit_costs: { ...costs, cost_per_m2: [900, 250, 400] },
      constants: { weight_load: 2 },
    });
    const { taken, troubles } = settled(before, typed);
    expect(taken).toEqual({ ...before, constants: { weight_load: 2 } });
    expect(troubles.get('unit_costs')).toContain('must rise');
  });
});
