import { afterAll, expect, test, vi } from 'vitest';
import { csvAlone, inMemory, kept, outcome, removeFolders, workFolder } from '../batch/runs.ts';
import { inputs, session } from '../session/open.ts';

vi.setConfig({ testTimeout: 120_000 });
afterAll(removeFolders);

const list = `building_id,postal_code,year_built,storeys,use
B-1,98101,1990,4,apartment
B-2,97201,1990,4,apartment
B-3,98109,2005,2,house
B-4,00802,1990,4,apartment
`;

test('a list of postal codes alone has regions to count, to filter by and to add up by, each flagged', async () => {
  const analyst = await session();
  const report = await analyst.open(inputs(list));
  const frame = await analyst.frame();
  expect(frame.counts.region.filter(({ value }) => value !== null)).toEqual([
    { value: 'WA', n: 2 },
    { value: 'OR', n: 1 },
  ]);
  const among = { region: { among: ['WA'] } };
  expect([...(await analyst.order({ by: 'index', on: among }))].sort()).toEqual([0, 2]);
  const { record } = await analyst.building(1);
  expect(record).toMatchObject({ region: 'OR', region_source: 'postal code', region_code: 'OR' });
  expect((await analyst.building(3)).record).toMatchObject({ region: null, region_source: null });
  expect(report.files[0]!.notes).toEqual([
    'The region of 3 buildings is blank and read from their postal codes; region_source says of which.',
  ]);
});

test('a run in parts fills and flags them as a run in memory does', async () => {
  const given = inputs(list);
  const parts = await kept(workFolder(), given, (run, engine) => outcome(run, engine, csvAlone));
  const whole = await inMemory(given, csvAlone);
  expect(parts.report).toEqual(whole.report);
  expect(parts.about).toBe(whole.about);
  expect(parts.files).toEqual(whole.files);
});
