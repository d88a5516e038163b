import { createHash } from 'node:crypto';
import Papa from 'papaparse';
import { beforeAll, describe, expect, it } from 'vitest';
import type { SelectionRequest } from '../../analysis/sample/request.ts';
import { defaultRequest } from '../../analysis/sample/request.ts';
import type { Analyst } from '../../analysis/session-types.ts';
import { fileName, planCsv, planGeojson, planJson } from '../../analysis/survey/plan-files.ts';
import {
  changedInputs,
  isChanged,
  lockedPlan,
  missingForLock,
  type ShownPlan,
  shownLocked,
} from '../../analysis/survey/plan-standing.ts';
import { planLines } from '../../analysis/survey/plan-table.ts';
import { withHead } from '../../dashboard/sample/draft.ts';
import { sheetLines } from '../../dashboard/sample/field-sheet.ts';
import { inputDigests } from '../../dashboard/sample/input-digests.ts';
import { inputs, session } from '../session/open.ts';

const buildings = [
  'building_id,name,latitude,longitude,year_built,height_m',
  ...Array.from(
    { length: 24 },
    (_, i) =>
      `B${String(i).padStart(2, '0')},=SUM(A${i}),${(47 + i / 200).toFixed(4)},${(-122 - i / 300).toFixed(4)},${1980 + i},9`,
  ),
].join('\n');
// Every third wall has no area on record: a plan holds missing numbers.
const walls = [
  'building_id,wall_id,azimuth_deg,material,area_m2',
  ...Array.from({ length: 24 }, (_, i) => {
    const id = `B${String(i).padStart(2, '0')}`;
    return `${id},n,0,stucco,${i % 3 === 0 ? '' : 100 + i}\n${id},s,180,stucco,60`;
  }),
].join('\n');
const files = inputs(buildings, walls);
const head = {
  planId: 'Mill Street / 1',
  population: 'every scored wall',
  frameDate: '2026-04-01',
  chosenBy: 'I. Marlowe',
  chosenOn: '2026-04-02',
  software: 'Rainledger',
  inputs: {},
  costs: {},
  sizeReason: 'a test',
};
const at = '2026-04-03T08:00:00.000Z';

let analyst: Analyst;
let draft: ShownPlan;
let locked: ShownPlan;

async function drawn(more: Partial<SelectionRequest>): Promise<ShownPlan> {
  const found = await analyst.draw(
    { query: { by: 'index' }, unit: 'wall' },
    { ...defaultRequest, openings: 12, replacementsPerStratum: 2, ...more },
    head,
  );
  if (!found.ok) throw new Error(found.says.join(' '));
  return { plan: found.plan, field: found.field, locked: null };
}

beforeAll(async () => {
  analyst = await session();
  await analyst.open(files);
  draft = await drawn({});
  locked = shownLocked(lockedPlan(draft, at));
});

describe('the lock', () => {
  it('the digest of a locked plan is that of its JSON file by another SHA-256 (node:crypto)', () => {
    expect(createHash('sha256').update(planJson(locked)).digest('hex')).toBe(locked.locked!.digest);
  });

  it('a plan with missing numbers is kept as plain JSON and keeps its digest when it is read back', () => {
    expect(draft.plan.units.some(({ probability }) => Number.isNaN(probability))).toBe(true);
    const back = JSON.parse(JSON.stringify(locked)) as ShownPlan;
    expect(back).toEqual(locked);
    expect(isChanged(back)).toBe(false);
  });

  it('any later change of a plan shows', () => {
    expect(isChanged(locked)).toBe(false);
    expect(isChanged({ ...locked, plan: withHead(locked.plan, { chosenBy: 'J. Marlowe' }) })).toBe(
      true,
    );
    const [first, ...others] = locked.plan.units;
    const swapped = [{ ...first!, id: 'B99 / n' }, ...others];
    expect(isChanged({ ...locked, plan: { ...locked.plan, units: swapped } })).toBe(true);
  });

  it('a plan is not locked without title, names, dates and reason, nor under a title that is taken', () => {
    expect(missingForLock(draft.plan, [])).toEqual([]);
    expect(missingForLock(withHead(draft.plan, { chosenBy: '', frameDate: ' ' }), [])).toEqual([
      'Before it can be locked, the plan needs who chose it, the date of the frame.',
    ]);
    expect(missingForLock(draft.plan, [head.planId])).toHaveLength(1);
  });

  it('a plan over files that changed since says which; over the same files it says nothing', async () => {
    expect(changedInputs(locked.plan, await inputDigests(files))).toEqual([]);
    const later = await inputDigests(inputs(buildings, `${walls}\nB00,w,270,stucco,80`));
    expect(changedInputs(locked.plan, later)).toEqual([
      'walls.csv: changed since the plan was drawn.',
    ]);
    const others = await inputDigests(inputs(buildings));
    expect(changedInputs(locked.plan, others)).toEqual(['walls.csv: no longer open.']);
  });
});

describe('files of a plan', () => {
  const rowsOf = (text: string) =>
    Papa.parse<Record<string, string>>(text.trim(), { header: true }).data;

  it('CSV has a row for each unit, replacements with their order and without a chance', () => {
    const rows = rowsOf(planCsv(locked, 'metric'));
    expect(rows.map(({ unit_id }) => unit_id)).toEqual(locked.plan.units.map(({ id }) => id));
    const spare = rows.filter(({ replacement_order }) => replacement_order !== '');
    expect(spare.map(({ replacement_order }) => replacement_order)).toEqual(['1', '2']);
    expect(spare.every(({ probability, weight }) => probability === '' && weight === '')).toBe(
      true,
    );
    const chosen = rows.filter(({ replacement_order }) => replacement_order === '');
    // 12 of 48, every wall alike.
    expect(chosen.map(({ probability }) => Number(probability))).toEqual(Array(12).fill(0.25));
  });

  it('a name that a spreadsheet would take for a formula is disarmed', () => {
    for (const { name } of rowsOf(planCsv(locked, 'metric'))) expect(name).toMatch(/^'=SUM/);
  });

  it('an American sheet names its units: 1 ft = 0.3048 m by definition', () => {
    const metric = rowsOf(planCsv(locked, 'metric'));
    const american = rowsOf(planCsv(locked, 'american'));
    const known = metric.findIndex(({ area_m2 }) => area_m2 !== '');
    expect(Number(american[known]!.area_ft2)).toBeCloseTo(
      Number(metric[known]!.area_m2) / 0.3048 ** 2,
      1,
    );
    expect(american[known]).not.toHaveProperty('area_m2');
    expect(Number(american[known]!.height_ft)).toBe(Math.round(9 / 0.3048));
  });

  it('GeoJSON puts longitude before latitude (RFC 7946, section 3.1.1) and carries caution and plan', () => {
    const all = JSON.parse(planGeojson(locked, 'metric'));
    expect(all.type).toBe('FeatureCollection');
    expect(all.features).toHaveLength(locked.plan.units.length);
    const [longitude, latitude] = all.features[0].geometry.coordinates;
    expect(longitude).toBeLessThan(-121);
    expect(latitude).toBeGreaterThan(46);
    expect(all.plan.seed).toBe(1);
    expect(all.caution.length).toBeGreaterThan(3);
  });

  it('every file of a draft says that it is one; none of a locked plan does', () => {
    const texts = (shown: ShownPlan) => [
      planCsv(shown, 'metric'),
      planGeojson(shown, 'metric'),
      planJson(shown),
      fileName(shown, 'csv'),
    ];
    for (const text of texts(draft)) expect(text).toContain('DRAFT');
    for (const text of texts(locked)) expect(text).not.toContain('DRAFT');
    expect(fileName(locked, 'csv')).toBe('Mill-Street-1.csv');
  });
});

describe('sheets to take along', () => {
  it('a wall that independent draws took more than once has one page', async () => {
    const shown = await drawn({ design: 'replicated', openings: 40, replicates: 8 });
    const lines = planLines(shown);
    const pages = sheetLines(lines).map(({ unit }) => unit.id);
    expect(pages.length).toBeLessThan(lines.length);
    expect(pages).toEqual([...new Set(lines.map(({ unit }) => unit.id))]);
  });
});
