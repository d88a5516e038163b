import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { cautionTexts } from '../../analysis/cautions.ts';
import { exposureOf } from '../../analysis/exposure/exposure.ts';
import { sumAt } from '../../analysis/exposure/sums.ts';
import { exposureAbout } from '../../dashboard/exposure/about-file.ts';
import { pivotCsv } from '../../dashboard/exposure/pivot-file.ts';
import { referralCsv } from '../../dashboard/exposure/referral-file.ts';
import { inputs, session } from '../session/open.ts';
import { portfolio, someLines } from './portfolio.ts';

const read = (text: string) =>
  Papa.parse<Record<string, string>>(text.trim(), { header: true }).data;
const cents = (cells: readonly (string | undefined)[]) =>
  cells.reduce((sum, cell) => sum + Math.round(Number(cell ?? 0) * 100), 0);

const asked = {
  rows: ['tier'],
  columns: [],
  radiusKm: 5,
  referral: { tier: 1, index: null, tierHigh: null, value: null, unknownValue: true },
  crossing: ['tier', 'region', 'height', 'era'],
} as const;

describe('the pivot file', () => {
  const c = portfolio(600, { seed: 12 });
  const armed = { ...c, region: { ...c.region, words: ['=1+1', ...c.region.words.slice(1)] } };
  const view = exposureOf(armed, someLines(c.n, 12), asked);
  const file = (units: 'metric' | 'american') =>
    read(pivotCsv(view.crossing!, view.words, { filter: 'in the tier First look', units }));

  test('has no rows of totals: its rows add up to the totals on screen, values by currency', () => {
    const rows = file('metric');
    expect(cents(rows.map(({ lines }) => lines))).toBe(view.lines * 100);
    view.totals.currencies.forEach((currency, group) => {
      const own = rows.filter((row) => row.currency === (currency ?? 'no currency on record'));
      const ends = {
        insured_value: 'all',
        insured_value_first_two_tiers_leaning_low: 'low',
        insured_value_first_two_tiers: 'mean',
        insured_value_first_two_tiers_leaning_high: 'high',
      } as const;
      for (const [column, scope] of Object.entries(ends)) {
        expect(cents(own.map((row) => row[column]))).toBe(
          Math.round(sumAt(view.totals.sums, 'value', group, scope) * 100),
        );
      }
    });
  });

  test('carries the filter and the caution in every row', () => {
    for (const row of file('metric')) {
      expect(row.filter).toBe('in the tier First look');
      expect(row.caution).toBe('SCREENING-NOT-DIAGNOSIS');
    }
  });

  test('leaves blank what no line of a row has on record', () => {
    const blank = file('metric').filter((row) => row.insured_value_not_on_record === row.lines);
    expect(blank.length).toBeGreaterThan(0);
    for (const row of blank) expect(row.insured_value).toBe('');
  });

  test('disarms words of the records that a spreadsheet would take for a formula', () => {
    const regions = new Set(file('metric').map(({ region }) => region));
    expect(regions).toContain("'=1+1");
    expect(regions).not.toContain('=1+1');
  });

  test('an American file has square feet and feet, and says so in its headings', () => {
    const [metric, american] = [file('metric')[0]!, file('american')[0]!];
    expect(american).not.toHaveProperty('wall_area_m2');
    // 1 ft = 0.3048 m, by definition of the international foot.
    expect(Number(american.wall_area_ft2)).toBeCloseTo(
      Number(metric.wall_area_m2) / 0.3048 ** 2,
      1,
    );
    expect(american.height).toMatch(/ft/);
  });
});

describe('the referral file and its about file', async () => {
  const analyst = await session();
  const line = (i: number) => {
    const value = i % 5 === 0 ? ',' : `${1_000_000 + i * 1000},USD`;
    return `B${String(i).padStart(2, '0')},${47.6 + i / 500},-122.3,${1975 + i},${4 + i},${value},P-${i},=1+${i},mine`;
  };
  const report = await analyst.open(
    inputs(
      `building_id,latitude,longitude,year_built,height_m,insured_value,currency,Policy,Note,Filter\n${Array.from({ length: 40 }, (_, i) => line(i)).join('\n')}\n`,
      `building_id,material,drainage,sheathing\n${Array.from({ length: 20 }, (_, i) => `B${String(i).padStart(2, '0')},stucco,double_paper,osb`).join('\n')}\n`,
    ),
  );
  const view = await analyst.exposure(
    { by: 'index' },
    { ...asked, referral: { ...asked.referral, tierHigh: 1 } },
  );
  const rows = await analyst.rows(view.referral.ordinals);
  const own = await analyst.own(view.referral.ordinals);
  const file = (units: 'metric' | 'american') =>
    read(
      referralCsv(
        view.referral,
        rows,
        own,
        { ...asked.referral, tierHigh: 1 },
        { filter: '', units },
      ),
    );

  test('the session adds up every building once', async () => {
    expect(view.lines).toBe(40);
    expect(view.byTier).toEqual(Object.values((await analyst.frame()).counts.tier));
    expect(view.currency).toBe('USD');
    expect(sumAt(view.totals.sums, 'value', 0, 'all')).toBe(
      Array.from({ length: 40 }, (_, i) => (i % 5 === 0 ? 0 : 1_000_000 + i * 1000)).reduce(
        (a, b) => a + b,
      ),
    );
    expect(sumAt(view.pivot.total, 'valueUnknown', 0, 'all')).toBe(8);
  });

  test('has the reason, the columns of the ranking file in their order, and the user’s own', async () => {
    const ranking = new TextDecoder().decode((await analyst.write('csv', 'metric')).bytes);
    const contract = ranking.split('\r\n')[0]!.split(',');
    expect(view.referral.ordinals.length).toBeGreaterThan(3);
    const heads = Object.keys(file('metric')[0]!);
    const upTo = contract.indexOf('caution') + 1;
    expect(heads).toEqual([
      'referred_for',
      ...contract.slice(0, upTo),
      'Policy',
      'Note',
      'Filter_yours',
      'filter',
    ]);
    const byId = new Map(read(ranking).map((row) => [row.building_id, row]));
    for (const { referred_for, filter, Policy, Note, Filter_yours, ...row } of file('metric')) {
      const i = Number(row.building_id!.slice(1));
      expect([Policy, Note, Filter_yours]).toEqual([`P-${i}`, `'=1+${i}`, 'mine']);
      expect(row).toEqual(
        Object.fromEntries(
          contract.slice(0, upTo).map((name) => [name, byId.get(row.building_id)![name]]),
        ),
      );
      expect(referred_for).toMatch(/insured for [\d,]+\u00a0USD\.|value not on record\./);
      expect(filter).toBe('all lines');
    }
  });

  test('an American file has the figures of the American ranking', async () => {
    const ranking = read(new TextDecoder().decode((await analyst.write('csv', 'american')).bytes));
    const byId = new Map(ranking.map((row) => [row.building_id, row]));
    for (const row of file('american')) {
      const whole = byId.get(row.building_id)!;
      for (const name of ['rain_in', 'wetting_gal_ft2', 'index_weighted_area_ft2', 'reason']) {
        expect(row[name], name).toBe(whole[name]);
      }
    }
  });

  test('the about file has the cautions, the filter, the totals and the digests', () => {
    const about = JSON.parse(
      exposureAbout({
        view,
        report,
        digests: { 'buildings.csv': 'abc' },
        settings: {},
        about: 'Exposure by tier.',
        filter: 'in the region OR',
        units: 'metric',
      }),
    );
    expect(about.caution).toEqual(cautionTexts);
    expect(about.filter).toBe('in the region OR');
    expect(about.totals.lines).toBe(40);
    expect(about.totals.insured_value_not_on_record).toBe(8);
    expect(about.inputs[0]).toMatchObject({ file: 'buildings.csv', sha256: 'abc', accepted: 40 });
  });
});
