import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { type Bench, type Line, median } from './line.ts';
import { longest } from './open.ts';
import { type Ranked, rankFiles, repainted, viewport } from './page.ts';
import { within } from './within.ts';

/** A page in which a bare list of a million buildings is open: every wall is assumed. */
interface OpenList {
  readonly page: Page;
  readonly opening: Ranked;
}

const size = '1M buildings without a wall on record';
let open: Promise<OpenList> | undefined;

/** Opened once a run, by whichever line comes first. */
function openList(bench: Bench): Promise<OpenList> {
  open ??= (async () => {
    const context = await (await bench.browser()).newContext({ viewport, serviceWorkers: 'block' });
    const page = await context.newPage();
    const opening = await rankFiles(page, await bench.origin(), [writeList(bench.folder)]);
    return { page, opening };
  })();
  return open;
}

/** Headings of its owner's own; places and years by a fixed generator. */
function writeList(folder: string): string {
  let state = 7;
  const draw = (): number => {
    state = (state * 16_807) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  const rows = Array.from({ length: 1e6 }, (_, i) => {
    const [lat, lon] = [30 + 18 * draw(), -120 + 40 * draw()].map((x) => x.toFixed(5));
    return `B${i},House ${i},${lat},${lon},${1960 + Math.floor(60 * draw())},${1 + Math.floor(9 * draw())}`;
  });
  const path = join(folder, 'million.csv');
  writeFileSync(path, `id,name,lat,lon,built,floors\n${rows.join('\n')}\n`);
  return path;
}

const line = (work: string, figure: number, most: number): Line =>
  within(`${size}: ${work}`, figure, most);

export async function bareList(bench: Bench): Promise<readonly Line[]> {
  const { ms, longestTask } = (await openList(bench)).opening;
  return [line('CSV bytes to ranked table, page', ms, 30_000), longest(size, longestTask)];
}

/** Another order of the whole table, to the repaint: columns asked for the first time, then again. */
export async function sort(bench: Bench): Promise<readonly Line[]> {
  const { page } = await openList(bench);
  const button = { selector: 'th.at-wetting button.sort' };
  const first = await repainted(page, button);
  const again: number[] = [];
  // Ascending, back to the ranking, descending; at the end the ranking's own order stands, in which weights are measured.
  for (let i = 0; i < 8; i++) again.push(await repainted(page, button));
  return [
    line('another order to repaint, the column not asked for before', first, 150),
    line('another order to repaint, once more', median(again), 150),
  ];
}

/** Map and charts have followed the move before, ms. */
const atRest = 1500;

/** A weight moves, by itself and right after another: to the repaint of the table; against scoring anew. */
export async function rerank(bench: Bench): Promise<readonly Line[]> {
  const { page } = await openList(bench);
  await page.locator('.weights summary').click();
  await page.locator('.weights input').first().waitFor();
  const slider = (nth: number, value: number) => ({
    selector: `.weights label:nth-of-type(${nth}) input`,
    value: value.toFixed(1),
  });
  const moves = async (pause: number): Promise<number> => {
    const taken: number[] = [];
    for (const tenths of [15, 14, 13, 12, 11, 9]) {
      await page.waitForTimeout(pause);
      taken.push(await repainted(page, slider(2, tenths / 10)));
    }
    // The first makes ready.
    return median(taken.slice(1));
  };
  const alone = await moves(atRest);
  const following = await moves(0);
  const baseline = await scoredAnew(page);
  const scored = {
    goal: { most: 100 },
    unit: 'ms' as const,
    baseline,
    baselineName: 'scored by the statements that read weights, in the page',
  };
  return [
    {
      work: `${size}: ranked anew when a weight moves, to repaint`,
      figure: alone,
      ...scored,
    },
    {
      work: `${size}: the same, each move right after the one before`,
      figure: following,
      ...scored,
    },
  ];
}

async function scoredAnew(page: Page): Promise<number> {
  const working = page.locator('.weights-foot [role=status]');
  const start = performance.now();
  await page.locator('.weights label:nth-of-type(2) input').dispatchEvent('change');
  await working.filter({ hasText: /./ }).waitFor({ timeout: 30_000 });
  await working.filter({ hasNotText: /./ }).waitFor({ timeout: 600_000, state: 'attached' });
  return performance.now() - start;
}
