import { describe, expect, test } from 'vitest';
import { meets, type ReferralRequest, referralOf } from '../../analysis/exposure/referral.ts';
import { sumAt } from '../../analysis/exposure/sums.ts';
import { linesOf } from './naive.ts';
import { portfolio, someLines } from './portfolio.ts';

const usd = 1;
const c = portfolio(900, { seed: 6 });
const shown = someLines(c.n, 6);
const nothing: ReferralRequest = {
  tier: null,
  index: null,
  tierHigh: null,
  value: null,
  unknownValue: false,
};

const cases: readonly (readonly [string, Partial<ReferralRequest>])[] = [
  ['tier at least Next look', { tier: 1 }],
  ['index at least 30', { index: 30 }],
  ['tier at its high end First look', { tierHigh: 0 }],
  ['one of three, and insured for enough', { tier: 0, index: 35, tierHigh: 0, value: 5e6 }],
  ['the same with values not on record', { tier: 0, tierHigh: 0, value: 5e6, unknownValue: true }],
  ['nothing asked', {}],
];

describe('the referral list', () => {
  test.each(cases)('%s: lists what meets it, and counts what could not be told', (_, part) => {
    const request = { ...nothing, ...part };
    const lines = linesOf(c, shown);
    const met = lines.filter(
      ({ b, tiers }) =>
        (request.tier !== null && tiers.mean <= request.tier) ||
        (request.index !== null && c.index[b]! >= request.index) ||
        (request.tierHigh !== null && tiers.high <= request.tierHigh),
    );
    const asked = request.value !== null;
    const known = met.filter(({ value }) => value !== null);
    const blank = met.filter(({ value }) => value === null);
    const listed = asked
      ? [
          ...known.filter(({ value, level }) => level.currency === usd && value! >= request.value!),
          ...(request.unknownValue ? blank : []),
        ]
      : met;
    const view = referralOf(c, shown, request, usd);
    expect(new Set(view.ordinals)).toEqual(new Set(listed.map(({ b }) => b)));
    expect(view.valueUnknown).toBe(asked && !request.unknownValue ? blank.length : 0);
    expect(view.valuedElsewhere).toBe(
      asked ? known.filter(({ level }) => level.currency !== usd).length : 0,
    );
    expect(view.notScored).toBe(lines.filter(({ tiers }) => tiers.mean === 4).length);
    expect(sumAt(view.sums, 'lines', 0, 'all')).toBe(listed.length);
  });

  test('is in order of tier, then value in the currency, then building', () => {
    const { ordinals } = referralOf(c, shown, { ...nothing, tier: 3 }, usd);
    const key = (b: number) => [
      c.tier[b]!,
      c.currency.codes[b] === usd && !Number.isNaN(c.insuredValue[b]!) ? -c.insuredValue[b]! : 1,
      b,
    ];
    const naive = [...ordinals].sort((a, b) => {
      const [x, y] = [key(a), key(b)];
      return x[0]! - y[0]! || x[1]! - y[1]! || x[2]! - y[2]!;
    });
    expect([...ordinals]).toEqual(naive);
  });

  test('says of each building which of the three it meets', () => {
    const request = { ...nothing, tier: 0, index: 30, tierHigh: 0 };
    const { ordinals, why } = referralOf(c, shown, request, usd);
    const seen = new Set<number>();
    ordinals.forEach((b, i) => {
      seen.add(why[i]!);
      expect((why[i]! & meets.tier) > 0).toBe(c.tier[b] === 0);
      expect((why[i]! & meets.index) > 0).toBe(c.index[b]! >= 30);
      expect((why[i]! & meets.tierHigh) > 0).toBe(c.tierHigh[b] === 0);
    });
    expect(seen.size).toBeGreaterThan(2);
  });
});
