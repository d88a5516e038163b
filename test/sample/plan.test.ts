import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { canonicalJson } from '../../analysis/sample/canonical.ts';
import {
  planChanged,
  planDigest,
  planOf,
  planText,
  type SamplingPlan,
} from '../../analysis/sample/plan.ts';
import { defaultRequest } from '../../analysis/sample/request.ts';
import { select } from '../../analysis/sample/select.ts';
import { walls } from './population.ts';

const head = {
  planId: 'harbour-row-1',
  population: 'Walls of Harbour Row with plaster or stone',
  frameDate: '2026-03-02',
  chosenBy: 'M. Okafor',
  chosenOn: '2026-03-03',
  software: 'Rainledger',
  inputs: { 'walls.csv': 'ab12' },
  costs: { opening: 900, repair: 600, access: 4000 },
  sizeReason: 'to see at least one, if 5 % are decayed, with 95 %',
};
const request = {
  ...defaultRequest,
  design: 'stratified',
  strata: ['material'],
  replacementsPerStratum: 2,
  exclusions: [{ id: 'w00003', reason: 'no access' }],
} as const;

function plan(population = walls(80)): SamplingPlan {
  const found = select(population, request);
  if (!found.ok) throw new Error(found.says.join());
  return planOf(head, 'wall', request, found.selection, found.says);
}

describe('the canonical text', () => {
  test('sorts keys by code unit and writes numbers as ECMAScript does', () => {
    // from memory of RFC 8785, section 3.2: the example of numbers, escapes and literals.
    const numbers = JSON.parse(
      '[333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001]',
    ) as number[];
    const value = { numbers, string: '€$\u000f\nA\'B"\\\\"/', literals: [null, true, false] };
    expect(canonicalJson(value)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
    expect(canonicalJson({ b: 1, a: 2, '€': 3, B: 4 })).toBe('{"B":4,"a":2,"b":1,"€":3}');
  });

  test('a missing number is null, a key without a value is left out', () => {
    expect(canonicalJson({ a: Number.NaN, b: undefined, c: [undefined] })).toBe(
      '{"a":null,"c":[null]}',
    );
  });
});

describe('a plan', () => {
  test('is locked by the SHA-256 of its text, as Node’s own crypto computes it', () => {
    const text = planText(plan());
    expect(planDigest(plan())).toBe(createHash('sha256').update(text, 'utf8').digest('hex'));
  });

  test('read back from a file is unchanged', () => {
    const again = JSON.parse(JSON.stringify(plan())) as SamplingPlan;
    expect(planChanged(again, planDigest(plan()))).toBe(false);
    expect(planChanged(JSON.parse(planText(plan())) as SamplingPlan, planDigest(plan()))).toBe(
      false,
    );
  });

  test('shows any later change', () => {
    const locked = plan();
    const digest = planDigest(locked);
    const units = locked.units.map((one, i) => (i === 4 ? { ...one, probability: 0.5 } : one));
    const changes: SamplingPlan[] = [
      { ...locked, units },
      { ...locked, units: locked.units.slice(1) },
      { ...locked, units: locked.units.toReversed() },
      { ...locked, seed: 2 },
      { ...locked, head: { ...head, chosenOn: '2026-03-04' } },
      { ...locked, limits: locked.limits.slice(1) },
    ];
    for (const changed of changes) expect(planChanged(changed, digest)).toBe(true);
    expect(planChanged(locked, `${digest.toUpperCase()}\n`)).toBe(false);
  });

  test('states frame, method, generator, seed, exclusions and limits', () => {
    const made = plan();
    expect(made.frame).toEqual({ units: 79, excluded: [{ reason: 'no access', units: 1 }] });
    expect(made.method.join()).toContain('Strata by material');
    expect(made.generator).toContain('xoshiro128**');
    expect(made.seed).toBe(1);
    expect(made.limits.join()).toContain('no clearance');
    expect(made.limits.join()).toContain('no access: 1');
  });

  test('says of itself when it is no probability sample', () => {
    const spaced = { ...defaultRequest, minimumDistanceKm: 1 };
    const found = select(walls(80), spaced);
    if (!found.ok) throw new Error(found.says.join());
    const made = planOf(head, 'wall', spaced, found.selection);
    expect(made.probabilitySample).toBe(false);
    expect(made.limits[0]).toContain('Not a probability sample');
  });
});
