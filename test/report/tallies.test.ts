import { expect, test } from 'vitest';
import { type Frame, type RankQuery, tiers } from '../../analysis/session-types.ts';
import { askTallies, binOf, binWidth, piecesOf } from '../../dashboard/report/tallies.ts';
import { generateDemo } from '../../data/demo/generate.ts';
import { inputs, session } from '../session/open.ts';

test('an index falls into its bin; 100 into the last, none into none', () => {
  const last = 100 / binWidth - 1;
  expect([0, binWidth - 1e-6, binWidth, 99.9, 100].map(binOf)).toEqual([0, 0, 1, last, last]);
  expect(binOf(Number.NaN)).toBe(last + 1);
});

test('the pieces of a bar lie end to end, the foremost tier first, and none is empty', () => {
  expect(piecesOf([3, 0, 2, 0, 1])).toEqual([
    { tier: 0, from: 0, to: 3 },
    { tier: 2, from: 3, to: 5 },
    { tier: 4, from: 5, to: 6 },
  ]);
});

/** Counts one row at a time, from the rows themselves. */
async function naive(shown: Int32Array, analyst: Awaited<ReturnType<typeof session>>) {
  const rows = await analyst.rows(shown);
  const count = (column: string) =>
    tiers.map((tier) => rows.filter((row) => row[column] === tier).length);
  return { rows, tier: count('tier'), low: count('tier_low'), high: count('tier_high') };
}

test('the tallies of a filtered part are those counted row by row', async () => {
  const analyst = await session();
  const { buildingsCsv, wallsCsv } = generateDemo({ buildings: 200, seed: 11 });
  await analyst.open(inputs(buildingsCsv, wallsCsv));
  const frame: Frame = await analyst.frame();
  const query: RankQuery = { by: 'index', on: { tier: { among: ['First look', 'Next look'] } } };
  const shown = await analyst.order(query);
  const found = await askTallies(analyst, frame, shown);
  const { rows, ...counts } = await naive(shown, analyst);
  expect(found).toMatchObject({ n: shown.length, ...counts });

  const scored = rows.filter((row) => typeof row.index === 'number').length;
  expect(found.bins.flat().reduce((a, b) => a + b, 0)).toBe(scored);
  const byRegion = found.regions.reduce(
    (sum, { counts: one }) => sum + one.reduce((a, b) => a + b, 0),
    0,
  );
  expect(byRegion).toBe(shown.length);
  const named = found.regions[0]!;
  expect(named.counts[0]).toBe(
    rows.filter((row) => row.region === named.label && row.tier === 'First look').length,
  );

  const cells = found.materials.flatMap(({ cells: line }) => line);
  expect(cells.reduce((sum, { all }) => sum + all, 0)).toBe(shown.length);
  expect(cells.reduce((sum, { first }) => sum + first, 0)).toBe(counts.tier[0]);
  const stucco = found.materials.find(({ label }) => label === 'stucco')!;
  expect(stucco.cells.reduce((sum, { all }) => sum + all, 0)).toBe(
    rows.filter((row) => row.material === 'stucco').length,
  );
}, 120_000);
