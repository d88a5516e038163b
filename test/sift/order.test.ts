import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { numbers, rowObject, texts } from '../../analysis/columns.ts';
import { type Engine, identifier } from '../../analysis/engine/port.ts';
import {
  type Conditions,
  type RankBy,
  type RankQuery,
  rankings,
  tiers,
} from '../../analysis/session-types.ts';
import { arranged } from '../../analysis/sift/arrange.ts';
import { siftColumns } from '../../analysis/sift/columns.ts';
import { type Held, heldColumns } from '../../analysis/sift/held.ts';
import { type Sifter, sifter } from '../../analysis/sift/order.ts';
import { searcher } from '../../analysis/sift/search.ts';
import { scoredDemo } from '../session/open.ts';

/** The same questions put to the engine: what the columns held in memory must answer. */
const byRank: Readonly<Record<RankBy, string>> = {
  index: '',
  wetting: 'wetting_l_m2 DESC NULLS LAST, ',
  high: 'index_high DESC NULLS LAST, ',
  value_at_tier: 'tier, insured_value DESC NULLS LAST, ',
};
const last = 'rank NULLS LAST, building_id';

function statement({ by, sort, on = {} }: RankQuery): string {
  const clauses = Object.entries(on).map(([column, condition]) => {
    if ('among' in condition) {
      const words = condition.among.map((word) =>
        column === 'tier' ? tiers.indexOf(word as never) : word,
      );
      const known = words.filter((word) => word !== null).map((word) => `'${word}'`);
      const some = known.length > 0 ? `${column} IN (${known.join(', ')})` : 'false';
      return words.includes(null) ? `(${some} OR ${column} IS NULL)` : some;
    }
    const { from = -1e300, below = 1e300 } = condition;
    return `(${column} >= ${from} AND ${column} < ${below})`;
  });
  const where = clauses.length > 0 ? `WHERE ${clauses.join(' AND ')}` : '';
  const order = sort
    ? `${identifier(sort.column)} ${sort.descending ? 'DESC' : 'ASC'} NULLS LAST, ${last}`
    : byRank[by] + last;
  return `SELECT b FROM ranking ${where} ORDER BY ${order}`;
}

const inView = [...siftColumns.keys()].filter(
  (name) => !['wall_area_m2', 'scored_area_m2', 'building_count'].includes(name),
);

let engine: Engine;
let held: Held;
let sift: Sifter;

beforeAll(async () => {
  engine = await scoredDemo(600);
  const { n } = rowObject(await engine.query('SELECT count(*) AS n FROM building'), 0);
  held = heldColumns(engine, Number(n));
  sift = sifter(held, searcher(engine, held));
});
afterAll(() => engine.close());

describe('the order of the ranking, from columns held in memory', () => {
  it.each(rankings)('by %s is that of the engine', async (by) => {
    expect([...(await sift.order({ by }))]).toEqual(await asked({ by }));
  });

  it.each(inView)('sorted by %s, either way, is that of the engine', async (column) => {
    for (const descending of [false, true]) {
      const query: RankQuery = { by: 'index', sort: { column, descending } };
      expect([...(await sift.order(query))]).toEqual(await asked(query));
    }
  });

  it('under any conditions lets through what the engine lets through', async () => {
    const words = async (column: string) => [...(await held.category(column)).words, null];
    const among = async (column: string) =>
      fc.record({ among: fc.subarray(await words(column), { minLength: 1 }) });
    const range = fc.record(
      { from: fc.constantFrom(0, 8, 25, 40, 55.5), below: fc.constantFrom(10, 40, 41, 300) },
      { requiredKeys: [] },
    );
    const conditions = fc.record(
      {
        tier: fc.record({ among: fc.subarray([...tiers], { minLength: 1 }) }),
        region: await among('region'),
        material: await among('material'),
        drainage_state: await among('drainage_state'),
        index: range,
        wetting_l_m2: range,
        height_used_m: range,
        installed_used: fc.oneof(range, fc.constant({ among: [null] })),
      },
      { requiredKeys: [] },
    );
    await fc.assert(
      fc.asyncProperty(conditions, fc.constantFrom(...rankings), async (on, by) => {
        const query = { by, on: on as Conditions };
        expect([...(await sift.order(query))]).toEqual(await asked(query));
      }),
      { numRuns: 60 },
    );
  });

  it('leaves out the conditions on columns that a view brushes itself', async () => {
    const on = { tier: { among: ['First look'] }, index: { from: 45 } };
    const passes = await sift.mask({ on }, ['tier']);
    const expected = await asked({ by: 'index', on: { index: on.index } });
    expect(passes?.reduce((n, one) => n + one, 0)).toBe(expected.length);
  });

  it('is the whole portfolio where nothing is asked', async () => {
    expect(await sift.mask({})).toBeNull();
  });

  it('finds words in id, name, address and city, whatever their case and accents', async () => {
    const [city] = texts(await engine.query('SELECT city FROM building LIMIT 1'), 'city');
    const found = await sift.order({ by: 'index', search: ` ${city!.toUpperCase()} ` });
    const n = await engine.query('SELECT count(*) AS n FROM building WHERE city = ?', [city!]);
    expect(found.length).toBeGreaterThanOrEqual(numbers(n, 'n')[0]!);
  });

  it('refuses a column that the ranking does not have', async () => {
    const sort = { column: 'b; DROP', descending: true };
    await expect(sift.order({ by: 'index', sort })).rejects.toThrow('no column b; DROP');
  });
});

describe('arranging by a key', () => {
  const keys = fc.array(
    fc.oneof(
      fc.double(),
      fc.constantFrom(
        0,
        -0,
        Number.NaN,
        Number.POSITIVE_INFINITY,
        Number.NEGATIVE_INFINITY,
        1,
        -1,
        40.25,
      ),
    ),
    { maxLength: 300 },
  );

  it('is a stable sort with NaN last, either way (property)', () => {
    fc.assert(
      fc.property(keys, fc.boolean(), (key, descending) => {
        const order = Int32Array.from(key, (_, i) => key.length - 1 - i);
        const value = (b: number) => (Number.isNaN(key[b]) ? Number.POSITIVE_INFINITY : key[b]!);
        const plain = [...order].sort((a, b) => {
          const [noA, noB] = [Number.isNaN(key[a]), Number.isNaN(key[b])];
          if (noA || noB) return Number(noA) - Number(noB);
          if (value(a) === value(b)) return 0;
          return value(a) < value(b) === descending ? 1 : -1;
        });
        expect([...arranged(order, Float64Array.from(key), descending)]).toEqual(plain);
      }),
    );
  });

  it('leaves the permutation it was given as it was', () => {
    const order = Int32Array.of(2, 0, 1);
    arranged(order, Float64Array.of(3, 1, 2), false);
    expect([...order]).toEqual([2, 0, 1]);
  });
});

const asked = async (query: RankQuery): Promise<number[]> => [
  ...numbers(await engine.query(statement(query)), 'b'),
];
