import { afterAll, describe, expect, test } from 'vitest';
import { eraBands, heightBands } from '../../analysis/bands.ts';
import { texts } from '../../analysis/columns.ts';
import { openNative } from '../../analysis/engine/native.ts';
import { exposureOf } from '../../analysis/exposure/exposure.ts';
import { crossingOf, currencyTotals, pivotOf } from '../../analysis/exposure/pivot.ts';
import {
  type Measure,
  measures,
  type SumTable,
  scopes,
  sumAt,
} from '../../analysis/exposure/sums.ts';
import { type Dimension, dimensions } from '../../analysis/exposure/types.ts';
import { inScope, type Line, linesOf, sumsOf } from './naive.ts';
import { everyLine, portfolio, someLines } from './portfolio.ts';

const usd = 1;

function expectSums(
  table: SumTable,
  group: number,
  lines: readonly Line[],
  currency: number | 'own' = usd,
) {
  for (const scope of scopes) {
    const found = Object.fromEntries(measures.map((m) => [m, sumAt(table, m, group, scope)]));
    expect(found, `group ${group}, ${scope}`).toEqual(sumsOf(inScope(lines, scope), currency));
  }
}

const choices: readonly (readonly [readonly Dimension[], readonly Dimension[]])[] = [
  [['tier'], ['region']],
  [
    ['tier', 'region'],
    ['height', 'era'],
  ],
  [['material'], []],
  [[], ['era']],
  [[], []],
];

describe('each cell and each total of the pivot is the naive sum of its lines', () => {
  test.each(choices)('rows by %j, columns by %j', (rows, columns) => {
    const c = portfolio(700);
    const shown = someLines(c.n, 3);
    const lines = linesOf(c, shown);
    const pivot = pivotOf(c, shown, { rows, columns }, usd);
    const at = (levels: readonly Int32Array[], by: readonly Dimension[], entry: number) =>
      lines.filter(({ level }) => by.every((d, i) => level[d] === levels[i]![entry]));
    for (let row = 0; row < pivot.rows.n; row++) {
      expectSums(pivot.rows.sums, row, at(pivot.rows.levels, rows, row));
    }
    for (let column = 0; column < pivot.columns.n; column++) {
      expectSums(pivot.columns.sums, column, at(pivot.columns.levels, columns, column));
    }
    pivot.cells.row.forEach((row, cell) => {
      const inRow = new Set(at(pivot.rows.levels, rows, row));
      const inColumn = at(pivot.columns.levels, columns, pivot.cells.column[cell]!);
      expectSums(
        pivot.cells.sums,
        cell,
        inColumn.filter((line) => inRow.has(line)),
      );
    });
    expectSums(pivot.total, 0, lines);
  });
});

test('entries of an axis stand in the order of their levels, no record last', () => {
  const c = portfolio(400);
  const { rows } = pivotOf(c, everyLine(c.n), { rows: ['region'], columns: [] }, usd);
  expect([...rows.levels[0]!]).toEqual([0, 1, 2, 3, 4, -1]);
});

test('a dimension chosen for rows and columns divides the rows alone', () => {
  const c = portfolio(50);
  const pivot = pivotOf(c, everyLine(c.n), { rows: ['tier'], columns: ['tier', 'era'] }, usd);
  expect(pivot.columns.dimensions).toEqual(['era']);
});

describe('totals reconcile', () => {
  const additive = measures.filter((m) => !m.endsWith('M2') && m !== 'value');
  const hundredths = (table: SumTable, measure: Measure, scope: (typeof scopes)[number]) =>
    Array.from({ length: table.n }, (_, g) => Math.round(sumAt(table, measure, g, scope) * 100));
  const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);

  test.each(Array.from({ length: 12 }, (_, seed) => seed))('seed %i', (seed) => {
    const c = portfolio(300 + 50 * seed, { seed, blank: seed / 12 });
    const shown = someLines(c.n, seed);
    const by = dimensions.filter((_, d) => (seed >> (d % 4)) & 1);
    const view = exposureOf(c, shown, {
      rows: by.slice(0, 2),
      columns: by.slice(2),
      radiusKm: 5,
      referral: { tier: 1, index: null, tierHigh: null, value: null, unknownValue: true },
      crossing: ['tier', 'region', 'height', 'era'],
    });
    const { total, rows, columns, cells } = view.pivot;
    for (const scope of scopes) {
      for (const measure of measures) {
        const [whole] = hundredths(total, measure, scope);
        for (const table of [rows.sums, columns.sums, cells.sums]) {
          expect(sum(hundredths(table, measure, scope)), `${measure}, ${scope}`).toBe(whole);
        }
      }
      // Values of the crossing are each in its own currency; everything else adds up to the same total.
      for (const measure of additive.filter((m) => !m.startsWith('value'))) {
        expect(sum(hundredths(view.crossing!.sums, measure, scope))).toBe(
          hundredths(total, measure, scope)[0],
        );
      }
    }
    expect(view.lines).toBe(shown.length);
    expect(sum(view.byTier)).toBe(shown.length);
    const all = (m: Measure) => sumAt(total, m, 0, 'all');
    expect(all('lines')).toBe(shown.length);
    expect(all('valued') + all('valuedElsewhere') + all('valueUnknown')).toBe(shown.length);
  });

  test('in whatever order the lines come', () => {
    const c = portfolio(500);
    const shown = someLines(c.n, 8);
    const turned = Int32Array.from(shown).reverse();
    const by = { rows: ['tier', 'era'], columns: ['region'] } as const;
    expect(pivotOf(c, turned, by, usd)).toEqual(pivotOf(c, shown, by, usd));
  });

  test('to the cent where the sum is beyond the whole numbers of a double', () => {
    const one = portfolio(30_000, { blank: 0 });
    const c = {
      ...one,
      insuredValue: one.insuredValue.map((_, b) => 999_999_999_999.99 - b / 100),
    };
    const shown = everyLine(c.n);
    const lines = linesOf(c, shown).filter(({ level }) => level.currency === usd);
    const cents = lines.reduce((all, { value }) => all + BigInt(Math.round(value! * 100)), 0n);
    expect(cents > 2n ** 53n).toBe(true);
    const found = sumAt(pivotOf(c, shown, { rows: [], columns: [] }, usd).total, 'value', 0, 'all');
    expect(found).toBe(Number(cents) / 100);
  });
});

describe('currencies are never added', () => {
  test('each has its own total, and a value without a currency is of no currency on record', () => {
    const c = portfolio(400);
    const shown = everyLine(c.n);
    const { currencies, sums } = currencyTotals(c, shown);
    expect([...currencies].sort()).toEqual(['CAD', 'USD', null].sort());
    currencies.forEach((currency, group) => {
      const code = currency === null ? -1 : c.currency.words.indexOf(currency);
      const lines = linesOf(c, shown).filter(
        ({ value, level }) => value !== null && level.currency === code,
      );
      expectSums(sums, group, lines, 'own');
    });
  });

  test('a file that crosses dimensions always has the currency among them', () => {
    const c = portfolio(200);
    expect(crossingOf(c, everyLine(c.n), ['tier']).dimensions).toEqual(['tier', 'currency']);
  });

  test('asked for a currency that no line has, the value is 0 and every value lies elsewhere', () => {
    const c = portfolio(200);
    const view = exposureOf(c, everyLine(c.n), {
      rows: [],
      columns: [],
      currency: 'CHF',
      radiusKm: 5,
      referral: { tier: 1, index: null, tierHigh: null, value: 1, unknownValue: false },
    });
    expect(sumAt(view.pivot.total, 'value', 0, 'all')).toBe(0);
    expect(sumAt(view.pivot.total, 'valued', 0, 'all')).toBe(0);
    expect(view.referral.ordinals.length).toBe(0);
    expect(view.clusters.centre.length).toBe(0);
  });
});

describe('the crossing of tier, region, height, era and currency equals DuckDB over the same rows', async () => {
  const engine = await openNative();
  afterAll(() => engine.close());

  const bandText = (column: string, bands: readonly { from?: number }[]) => {
    const steps = bands.map(({ from }, i) =>
      i > 0 ? `WHEN ${column} < ${from} THEN ${i - 1}` : '',
    );
    return `CASE WHEN ${column} IS NULL THEN -1 ${steps.join(' ')} ELSE ${bands.length - 1} END`;
  };
  const scopeText = {
    all: 'true',
    low: 'tier_low <= 1',
    mean: 'tier <= 1',
    high: 'tier_high <= 1',
  } as const;
  const cents = (column: string) =>
    `coalesce(sum(CAST(round(${column} * 100) AS BIGINT)) FILTER (?), 0) / 100`;
  const measureText: Readonly<Record<string, string>> = {
    lines: 'count(*) FILTER (?)',
    buildings: 'coalesce(sum(CAST(coalesce(n, 1) AS BIGINT)) FILTER (?), 0)',
    areaM2: cents('area'),
    weightedM2: cents('weighted'),
    value: cents('value'),
    valueUnknown: 'count(*) FILTER (? AND value IS NULL)',
    areaUnknown: 'count(*) FILTER (? AND area IS NULL)',
  };
  const asked = Object.entries(measureText).flatMap(([measure, text]) =>
    scopes.map((scope) => ({ name: `${measure} ${scope}`, text, scope, measure })),
  );

  test('cell by cell, in every measure and scope', async () => {
    const c = portfolio(3000, { seed: 5 });
    const shown = someLines(c.n, 5);
    const number = (values: ArrayLike<number>) => Float64Array.from(shown, (b) => values[b]!);
    const word = ({ codes, words }: typeof c.region) =>
      Array.from(shown, (b) => words[codes[b]!] ?? null);
    await engine.load('line', {
      n: shown.length,
      cols: {
        tier: number(c.tier),
        tier_low: number(c.tierLow),
        tier_high: number(c.tierHigh),
        region: word(c.region),
        currency: word(c.currency),
        height: number(c.heightM),
        installed: number(c.installed),
        area: number(c.wallAreaM2),
        weighted: number(c.weightedAreaM2),
        value: number(c.insuredValue),
        n: number(c.buildingCount),
      },
    });
    const table = await engine.query(`
      SELECT concat_ws('|', CAST(tier AS INTEGER), coalesce(region, '-'), ${bandText('height', heightBands)},
          ${bandText('installed', eraBands)}, coalesce(currency, '-')) AS cell,
        ${asked.map(({ name, text, scope }) => `CAST(${text.replace('?', `WHERE ${scopeText[scope]}`)} AS DOUBLE) AS "${name}"`).join(', ')}
      FROM line GROUP BY 1`);
    const { levels, sums } = crossingOf(c, shown, ['tier', 'region', 'height', 'era']);
    const name = (i: number) =>
      [
        levels[0]![i],
        c.region.words[levels[1]![i]!] ?? '-',
        levels[2]![i],
        levels[3]![i],
        c.currency.words[levels[4]![i]!] ?? '-',
      ].join('|');
    const ours = new Map(Array.from({ length: sums.n }, (_, i) => [name(i), i]));
    expect(new Set(texts(table, 'cell'))).toEqual(new Set(ours.keys()));
    texts(table, 'cell').forEach((cell, i) => {
      for (const { name: column, measure, scope } of asked) {
        const found = sumAt(sums, measure as Measure, ours.get(cell!)!, scope);
        expect(found, `${cell} ${column}`).toBe((table.cols[column] as Float64Array)[i]);
      }
    });
  });
});
