import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { defaultRequest } from '../../analysis/sample/request.ts';
import type { PopulationQuery } from '../../analysis/survey/walls.ts';
import { generateDemo } from '../../data/demo/generate.ts';
import { inputs, session } from '../session/open.ts';
import { launch } from './chromium.ts';
import { visit } from './visit.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser?.close());

/** The known truth of this test: sheathing behind a wall is softened where its index passes this. */
const softenedFrom = 35;

const asked: PopulationQuery = {
  query: { by: 'index', on: { region: { among: ['WA'] } } },
  unit: 'wall',
};

/** Share of all walls of the population that are softened, told by the native engine. */
async function truth(): Promise<number> {
  const analyst = await session();
  const { buildingsCsv, wallsCsv } = generateDemo({});
  await analyst.open(inputs(buildingsCsv, wallsCsv));
  const head = {
    planId: 'all',
    population: '',
    frameDate: '',
    chosenBy: '',
    chosenOn: '',
    software: '',
    inputs: {},
    costs: {},
    sizeReason: '',
  };
  const all = await analyst.draw(asked, { ...defaultRequest, openings: 1e6 }, head);
  if (!all.ok) throw new Error(all.says.join(' '));
  const softened = all.field.filter(({ wall }) => Number(wall.index) >= softenedFrom);
  return softened.length / all.field.length;
}

async function saved(page: Page, button: string): Promise<string> {
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: button, exact: true }).first().click();
  return readFileSync(await (await download).path(), 'utf8');
}

type Row = Readonly<Record<string, string>>;

/** What people who open the planned walls write down. */
function findingsOf(planCsv: string): string {
  const rows = Papa.parse(planCsv, { header: true, skipEmptyLines: true }).data as Row[];
  const cells = rows
    .filter(({ turn }) => turn === 'selected')
    .map(({ plan_id, building_id, wall_id, index }) => ({
      building_id,
      wall_id,
      observed_on: '2026-05-04',
      method: 'opening',
      sheathing_seen: 'yes',
      condition: Number(index) >= softenedFrom ? 'decayed' : 'sound',
      location: 'sill_corner',
      plan_id,
      observer: 'M. Quill',
    }));
  return Papa.unparse(cells, { newline: '\r\n' });
}

test('the whole walk: filter, unit, strata, size, select, lock, export, findings, and the interval beside the truth', async () => {
  const { page, errors, strayRequests } = await visit(browser, '#/rank?region=WA');
  await page.locator('tbody tr.row .building-name').first().waitFor({ timeout: 60_000 });
  await page.getByRole('link', { name: 'Sample', exact: true }).click();
  await page.getByRole('radio', { name: 'wall', exact: true }).check();
  await page.getByRole('checkbox', { name: 'tier' }).check();
  await page.getByRole('checkbox', { name: 'material' }).check();
  await page.getByLabel(/^Margin/).fill('12');
  await page.getByRole('button', { name: /^Take \d+ openings/ }).click();
  await page.getByRole('radio', { name: /^stratified/ }).check();
  await page.getByLabel('Seed').fill('20260504');
  await page.getByLabel('Chosen by').fill('M. Quill');
  await page.getByRole('button', { name: 'Draw the sample' }).click();
  await page.getByRole('button', { name: /^Lock/ }).click();
  await page.getByRole('heading', { name: 'Locked plans' }).waitFor();
  await page.getByText('Walls to open, files and sheets to print').click();
  const planCsv = await saved(page, 'CSV');
  const digest = (Papa.parse(planCsv, { header: true }).data as Row[])[0]!.plan_sha256!;
  expect(await page.locator('.locked-plan code').first().textContent()).toBe(digest);

  await page.getByRole('link', { name: 'Findings', exact: true }).click();
  await page.getByLabel(/Import a file of findings/).setInputFiles({
    name: 'findings.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(findingsOf(planCsv)),
  });
  const estimate = page.locator('.plan-reading');
  await estimate
    .getByText(/exact|Korn-Graubard/)
    .first()
    .waitFor();
  const told = JSON.parse(await saved(page, 'Save as JSON')) as {
    inference: { overall: { share: { low: number; high: number; share: number; n: number } } };
  };
  const { share } = told.inference.overall;
  const known = await truth();
  expect(share.low).toBeLessThanOrEqual(known);
  expect(share.high).toBeGreaterThanOrEqual(known);
  expect(share.high - share.low).toBeLessThan(0.35);
  expect([errors, strayRequests]).toEqual([[], []]);
  await page.context().close();
});
