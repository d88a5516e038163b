import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { infer } from '../../analysis/findings/infer.ts';
import { exactInterval } from '../../analysis/findings/interval.ts';
import { learnedWalls } from '../../analysis/findings/learn-from.ts';
import { findingTable, openingOn, planOf, unitOf } from './field.ts';

fc.configureGlobal({ seed: 20261125 });

const range = (n: number): number[] => Array.from({ length: n }, (_, i) => i);
/** Openings on the first `n` walls, the first `soft` of which are decayed. */
const openings = (n: number, soft: number) =>
  range(n).map((i) => openingOn(i, i < soft ? 'decayed' : 'sound'));

describe('a simple random sample', () => {
  const got = infer(planOf(), findingTable(openings(20, 3)));

  test('3 of 20 from 60: the exact hypergeometric interval first, Clopper and Pearson beside it', () => {
    // R: dhyper by every number of marked walls; binom.test.
    const { share } = got.overall!;
    expect(share).toMatchObject({ share: 0.15, low: 0.05, n: 20, found: 3 });
    expect(share.high).toBeCloseTo(0.3333, 4);
    expect(share.clopperPearson!.low).toBeCloseTo(0.03207094, 8);
    expect(share.clopperPearson!.high).toBeCloseTo(0.37892683, 8);
    expect(share.designEffect).toBeCloseTo(1, 10);
    expect(got.says[0]).toBe(
      'Softened or decayed sheathing: 15 % of the 60 walls, between 5 % and 33.3 % with 95 % confidence (seen in 3 of 20 walls opened).',
    );
  });

  test('the standard error of a share: 38 wrong of 200 addresses drawn from 3042', () => {
    // From memory of Cochran, Sampling Techniques, 3rd edition 1977, § 3.2, example: 578 names, standard error 81.8.
    const units = range(200).map((i) => unitOf(i, { probability: 200 / 3042 }));
    const strata = [{ stratum: 'all', units: 3042, areaM2: 304200, areaUnknown: 0 }];
    const { share } = infer(planOf({ units, strata }), findingTable(openings(200, 38))).overall!;
    expect(Math.round(share.share * 3042)).toBe(578);
    expect((share.standardError * 3042).toFixed(1)).toBe('81.8');
  });

  test('area: walls count by their area, and the frame gives the square metres', () => {
    const units = range(20).map((i) => unitOf(i, { areaM2: i < 3 ? 200 : 100 }));
    const { area } = infer(planOf({ units }), findingTable(openings(20, 3))).overall!;
    expect(area.share).toBeCloseTo(600 / 2300, 12);
    expect(area.areaM2).toBeCloseTo((6000 * 600) / 2300, 9);
    expect(area.lowM2).toBeLessThan(area.areaM2);
    expect(area.interval).toBe('Korn-Graubard');
  });

  test('no decay found always comes with its upper bound', () => {
    const { overall, says } = infer(planOf(), findingTable(openings(20, 0)));
    expect(overall!.share.low).toBe(0);
    expect(overall!.share.high).toBeCloseTo(8 / 60, 12);
    expect(overall!.share.designEffect).toBeNull();
    expect(overall!.area.high).toBeGreaterThan(0.1);
    expect(says[0]).toBe(
      'No softened or decayed sheathing was seen in 20 walls opened. That does not show that there is none: with 95 % confidence, up to 13.3 % of the 60 walls (8) may have it.',
    );
  });

  test('all showing it has a lower bound, and says that it proves no more', () => {
    const { overall, says } = infer(planOf(), findingTable(openings(20, 20)));
    expect(overall!.share.high).toBe(1);
    expect(overall!.share.low).toBeCloseTo(52 / 60, 12);
    expect(says[0]).toContain('which does not show that all have it');
  });

  test('openings that miss raise estimate and interval, and the effect is said', () => {
    const { overall, says } = infer(planOf(), findingTable(openings(20, 0)), { detection: 0.8 });
    const bound = exactInterval({ size: 60, drawn: 20, seen: 0 }, 0.95, 0.8).high;
    expect(overall!.share.high).toBe(bound);
    expect(says[1]).toBe(
      `Openings are taken to show softened or decayed sheathing in 80 % of the cases where it is there, so estimate and interval allow for what they missed: the upper end is ${Math.round(bound * 1000) / 10} % instead of 13.3 %.`,
    );
    const found = infer(planOf(), findingTable(openings(20, 4)), { detection: 0.8 }).overall!;
    expect(found.share.share).toBeCloseTo(0.25, 12);
  });

  test('a confidence or detection that is none is a mistake of ours', () => {
    expect(() => infer(planOf(), findingTable([]), { confidence: 95 })).toThrow('confidence 95');
    expect(() => infer(planOf(), findingTable([]), { detection: 0 })).toThrow('detection 0');
  });
});

describe('who answered', () => {
  const missing = [
    ...openings(20, 2).slice(0, 15),
    openingOn(15, '', {
      condition: null,
      not_accessible: 'yes',
      method: null,
      sheathing_seen: null,
    }),
    openingOn(16, 'decayed', { method: 'visual', sheathing_seen: 'no' }),
  ];

  test('not reached and not seen are nonresponse: those that answered stand for them', () => {
    const { response, overall, says } = infer(planOf(), findingTable(missing));
    expect(response).toMatchObject({
      selected: 20,
      answered: 15,
      unanswered: 5,
      notAccessible: 1,
      rate: 0.75,
    });
    expect(overall!.share).toMatchObject({
      n: 15,
      share: 2 / 15,
      ...exactInterval({ size: 60, drawn: 15, seen: 2 }, 0.95),
    });
    expect(says[1]).toContain(
      '15 of 20 selected walls answered (75 %); 1 could not be reached, 4 have no opening',
    );
  });

  test('replacements come apart: estimates without and with them', () => {
    const units = [
      ...planOf().units,
      ...range(6).map((k) =>
        unitOf(40 + k, { probability: Number.NaN, weight: Number.NaN, replacementOrder: k + 1 }),
      ),
    ];
    const table = findingTable([...missing, ...range(5).map((k) => openingOn(40 + k, 'softened'))]);
    const { overall, withReplacements, response, says } = infer(planOf({ units }), table);
    expect(overall!.share.share).toBeCloseTo(2 / 15, 12);
    expect(withReplacements!.share).toMatchObject({ n: 20, found: 7 });
    expect(withReplacements!.share.share).toBeCloseTo(7 / 20, 12);
    expect(response).toMatchObject({ selected: 20, rate: 0.75, replacementsAnswered: 5 });
    expect(says.join(' ')).toContain(
      '5 replacements answered. With them the share is 35 % instead of 13.3 %',
    );
  });

  test('findings outside the plan are counted and change nothing', () => {
    const outside = [
      openingOn(30, 'decayed'),
      openingOn(3, 'decayed', { plan_id: null }),
      openingOn(4, 'decayed', { plan_id: 'another' }),
    ];
    const alone = infer(planOf(), findingTable(openings(20, 3)));
    const { response, overall, says } = infer(
      planOf(),
      findingTable([...openings(20, 3), ...outside]),
    );
    expect(overall).toEqual(alone.overall);
    expect(response.outsideRows).toBe(3);
    expect(says.join(' ')).toContain('3 findings belong to no selected unit of this plan');
  });

  test('a wall chosen for comparison, without chance, is outside too', () => {
    const control = unitOf(50, { probability: Number.NaN, weight: Number.NaN });
    const table = findingTable([...openings(20, 3), openingOn(50, 'decayed')]);
    const { response, overall } = infer(planOf({ units: [...planOf().units, control] }), table);
    expect(overall!.share.n).toBe(20);
    expect(response).toMatchObject({ selected: 20, outsideRows: 1 });
  });

  test('a sample that is not one of chance says nothing of the whole', () => {
    const units = planOf().units.map((one) => ({ ...one, probability: Number.NaN }));
    const certain = unitOf(30, {
      certainty: true,
      probability: 1,
      weight: 1,
      stratum: 'to be included',
    });
    const strata = [
      ...planOf().strata,
      { stratum: 'to be included', units: 1, areaM2: 100, areaUnknown: 0 },
    ];
    const plan = planOf({ units: [...units, certain], strata, probabilitySample: false });
    const { overall, says } = infer(
      plan,
      findingTable([...openings(20, 3), openingOn(30, 'sound')]),
    );
    expect(overall).toBeNull();
    expect(says[0]).toContain('Not every wall of the population had a known chance');
  });

  test('conflicting findings on one wall: the worst stands, and it is said', () => {
    const table = findingTable([...openings(20, 3), openingOn(9, 'softened')]);
    const { overall, says } = infer(planOf(), table);
    expect(overall!.share.found).toBe(4);
    expect(says.at(-1)).toContain('Wall W1 of building B2 was seen more than once');
  });

  test('no findings at all: a sentence and no estimate', () => {
    const { overall, strata, withReplacements, says } = infer(planOf(), findingTable([]));
    expect([overall, withReplacements, strata[0]!.share]).toEqual([null, null, null]);
    expect(says).toEqual([
      'None of 20 selected walls has an opening on record that showed its sheathing, so nothing can be said of the population yet. Log openings under this plan with sheathing_seen and condition.',
    ]);
  });

  test('buildings as units: the worst of what their walls showed', () => {
    const units = range(20).map((i) =>
      unitOf(4 * i, { id: `B${i}`, cluster: `B${i}`, wall: null, probability: 20 / 60 }),
    );
    const rows = range(20).flatMap((b) => [
      openingOn(4 * b, 'sound'),
      openingOn(4 * b + 1, b < 5 ? 'softened' : 'stained'),
    ]);
    const { overall, says } = infer(planOf({ unit: 'building', units }), findingTable(rows));
    expect(overall!.share).toMatchObject({ n: 20, found: 5 });
    expect(says[0]).toContain('25 % of the 60 buildings');
  });
});

describe('strata', () => {
  const strata = [
    { stratum: 'A', units: 30, areaM2: 3000, areaUnknown: 0 },
    { stratum: 'B', units: 90, areaM2: 9000, areaUnknown: 0 },
    { stratum: 'C', units: 10, areaM2: 1000, areaUnknown: 0 },
  ];
  const units = [
    ...range(10).map((i) => unitOf(i, { stratum: 'A', probability: 1 / 3 })),
    ...range(10).map((i) => unitOf(10 + i, { stratum: 'B', probability: 1 / 9 })),
    ...range(2).map((i) => unitOf(20 + i, { stratum: 'C', probability: 1 / 5 })),
  ];
  const plan = planOf({ design: 'stratified', strata, units });

  test('each by itself exactly, and the overall share by their units', () => {
    const rows = range(22).map((i) => openingOn(i, i < 4 || i === 12 ? 'decayed' : 'sound'));
    const { overall, strata: each } = infer(plan, findingTable(rows));
    expect(each.map(({ stratum, share }) => [stratum, share!.found, share!.n])).toEqual([
      ['A', 4, 10],
      ['B', 1, 10],
      ['C', 0, 2],
    ]);
    expect(each[0]!.share).toMatchObject(exactInterval({ size: 30, drawn: 10, seen: 4 }, 0.95));
    expect(overall!.share.share).toBeCloseTo((0.4 * 30 + 0.1 * 90) / 130, 12);
    expect(overall!.share.interval).toBe('Korn-Graubard');
  });

  test('one answer in a stratum, and none in another: each is said, and the result stays sane', () => {
    const rows = range(11).map((i) => openingOn(i, i < 4 ? 'decayed' : 'sound'));
    const { overall, strata: each, says } = infer(plan, findingTable(rows));
    expect(each[2]!.share).toBeNull();
    expect(each[1]!.share).toMatchObject({ n: 1, found: 0 });
    expect(each[1]!.share!.high).toBeGreaterThan(0.9);
    expect(overall!.share.high).toBeGreaterThan(overall!.share.share);
    expect(says.join(' ')).toContain('Stratum B has one answered wall');
    expect(says.join(' ')).toContain(
      'Stratum C has 10 walls and no answer, so nothing is known of it',
    );
  });

  test('units selected whatever the draw are known, and have no variance', () => {
    const certain = range(5).map((i) => unitOf(i, { certainty: true, probability: 1, weight: 1 }));
    const drawn = range(15).map((i) => unitOf(5 + i, { probability: 15 / 55 }));
    const rows = range(20).map((i) => openingOn(i, i < 5 ? 'decayed' : 'sound'));
    const { share } = infer(planOf({ units: [...certain, ...drawn] }), findingTable(rows)).overall!;
    const rest = exactInterval({ size: 55, drawn: 15, seen: 0 }, 0.95);
    expect(share.share).toBeCloseTo(5 / 60, 12);
    expect(share.low).toBeCloseTo(5 / 60, 12);
    expect(share.high).toBeCloseTo((5 + 55 * rest.high) / 60, 12);
    expect(share.standardError).toBe(0);
  });

  test('a population opened whole is known', () => {
    const all = range(60).map((i) => unitOf(i, { probability: 1, certainty: true, weight: 1 }));
    const { share } = infer(planOf({ units: all }), findingTable(openings(60, 7))).overall!;
    expect(share).toMatchObject({ share: 7 / 60, low: 7 / 60, high: 7 / 60, standardError: 0 });
    expect(share.interval).toBe('none: every unit was opened');
  });
});

describe('other designs', () => {
  test('balanced: the greater of nearest neighbours and simple random', () => {
    const place = (i: number) => [i, 0];
    const units = range(20).map((i) => unitOf(i * 4, { place: place(i) }));
    const rows = (soft: (i: number) => boolean) =>
      findingTable(range(20).map((i) => openingOn(4 * i, soft(i) ? 'decayed' : 'sound')));
    const plan = planOf({ design: 'balanced', units });
    const alike = infer(
      plan,
      rows((i) => i < 10),
    ).overall!.share;
    expect(alike.variance).toContain('simple random');
    const alternating = infer(
      plan,
      rows((i) => i % 2 === 0),
    ).overall!.share;
    expect(alternating.variance).toBe('nearest neighbours');
    expect(alternating.standardError).toBeGreaterThan(alike.standardError);
  });

  test('unequal chances: labelled approximate; walls of one building together widen the interval', () => {
    const apart = range(20).map((i) => unitOf(4 * i, { probability: 0.1 + 0.02 * i }));
    const together = range(20).map((i) => unitOf(i, { probability: 0.1 + 0.02 * i }));
    const soft = (i: number) => (i >> 2) % 2 === 0;
    const one = infer(
      planOf({ design: 'pps', units: apart }),
      findingTable(range(20).map((i) => openingOn(4 * i, soft(i) ? 'decayed' : 'sound'))),
    ).overall!.share;
    const other = infer(
      planOf({ design: 'pps', units: together }),
      findingTable(range(20).map((i) => openingOn(i, soft(i) ? 'decayed' : 'sound'))),
    ).overall!.share;
    expect(one.variance).toContain('approximate');
    expect(other.variance).toContain('ultimate clusters');
    expect(other.share).toBeCloseTo(one.share, 12);
    expect(other.high - other.low).toBeGreaterThan(one.high - one.low);
  });

  test('replicated: few draws, few degrees of freedom, wide intervals; a unit drawn twice is known once', () => {
    const units = range(20).map((i) =>
      unitOf(i % 18, { replicate: 1 + (i >> 3), probability: 5 / 60 }),
    );
    const plan = planOf({ design: 'replicated', units });
    const { overall, response } = infer(plan, findingTable(openings(18, 6)));
    expect(response.selected).toBe(18);
    expect(overall!.share).toMatchObject({ n: 18, variance: 'between replicates' });
    const walls = learnedWalls(plan, findingTable(openings(18, 6)), () => ({ w: 0.5, d: 1, s: 1 }));
    expect(walls).toHaveLength(18);
    expect(walls.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(60, 9);
  });
});

describe('whatever is found', () => {
  const cases = fc.record({
    design: fc.constantFrom('simple', 'stratified', 'pps', 'balanced'),
    conditions: fc.array(fc.constantFrom('sound', 'stained', 'softened', 'decayed', null), {
      minLength: 1,
      maxLength: 30,
    }),
    chances: fc.array(fc.double({ min: 0.05, max: 1, noNaN: true }), {
      minLength: 30,
      maxLength: 30,
    }),
    detection: fc.constantFrom(1, 0.9, 0.5),
  });

  test('the interval holds the estimate and lies within 0 and 1, and every figure is a number', () => {
    fc.assert(
      fc.property(cases, ({ design, conditions, chances, detection }) => {
        const equal = design === 'simple' || design === 'balanced';
        const units = conditions.map((_, i) =>
          unitOf(i, {
            stratum: design === 'stratified' && i % 3 === 0 ? 'other' : 'all',
            probability: equal ? conditions.length / 60 : chances[i]!,
            place: [chances[i]!, i],
          }),
        );
        const strata = [
          { stratum: 'all', units: 60, areaM2: 6000, areaUnknown: 0 },
          { stratum: 'other', units: design === 'stratified' ? 40 : 0, areaM2: 0, areaUnknown: 40 },
        ];
        const rows = conditions.flatMap((condition, i) =>
          condition ? [openingOn(i, condition)] : [],
        );
        const plan = planOf({ design: design as 'simple', units, strata });
        const { overall, says } = infer(plan, findingTable(rows), { detection });
        expect(overall === null).toBe(rows.length === 0);
        if (!overall) return;
        for (const one of [overall.share, overall.area]) {
          expect(one.low).toBeGreaterThanOrEqual(0);
          expect(one.low).toBeLessThanOrEqual(one.share + 1e-9);
          expect(one.high).toBeGreaterThanOrEqual(one.share - 1e-9);
          expect(one.high).toBeLessThanOrEqual(1);
          expect(one.standardError).toBeGreaterThanOrEqual(0);
          expect(one.effectiveSize).toBeLessThanOrEqual(one.n);
        }
        expect(overall.area.areaM2).toBeGreaterThanOrEqual(0);
        expect(says.join(' ')).not.toMatch(/NaN|undefined|Infinity/);
      }),
      { numRuns: 300 },
    );
  });

  test('more confidence is never a narrower interval', () => {
    fc.assert(
      fc.property(fc.nat(20), (soft) => {
        const at = (confidence: number) =>
          infer(planOf(), findingTable(openings(20, soft)), { confidence }).overall!;
        const [less, more] = [at(0.8), at(0.95)];
        expect(more.share.high).toBeGreaterThanOrEqual(less.share.high);
        expect(more.share.low).toBeLessThanOrEqual(less.share.low);
        expect(more.area.high).toBeGreaterThanOrEqual(less.area.high);
      }),
    );
  });
});
