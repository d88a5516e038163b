import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { rowObject } from '../../analysis/columns.ts';
import type { Engine } from '../../analysis/engine/port.ts';
import { prepareLive, rerank } from '../../analysis/live/live.ts';
import { exactly, type LoadGround, loadRange, loadTables } from '../../analysis/live/load-range.ts';
import { roundedLoad } from '../../analysis/live/rounded-load.ts';
import { defaultSettings } from '../../analysis/settings.ts';
import type { Facts } from '../method/case.ts';
import { everyDraw, mean } from '../method/naive.ts';
import { scoredDemo } from '../session/open.ts';
import { weighted, weights } from './scored.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await scoredDemo(1000);
});

/** Loads of the ground with the building of each. */
function* loadsOf({ walls }: LoadGround): Generator<readonly [load: number, b: number]> {
  for (let b = 0; b + 1 < walls.loadStart.length; b++) {
    for (let p = walls.loadStart[b]!; p < walls.loadStart[b + 1]!; p++) yield [p, b];
  }
}

describe('the mean of w^α read off tables', () => {
  test.each([0.02, 0.3, 0.5, 0.95, 1.05, 1.7, 2, 3])(
    'lies in a range of 7 millionths that holds the exact one, α = %d',
    async (alpha) => {
      const { ground } = await prepareLive(engine, defaultSettings.constants);
      const loads = ground.walls.loadCase.length;
      const [low, high] = [new Int32Array(loads), new Int32Array(loads)];
      loadRange(ground, loadTables(ground, alpha), low, high);
      const exact = exactly(ground, alpha);
      for (const [load, b] of loadsOf(ground)) {
        const w = exact(load, b);
        expect(low[load]! <= w && w <= high[load]!, `load ${load}`).toBe(true);
        expect(high[load]! - low[load]!).toBeLessThanOrEqual(7);
      }
    },
  );

  test('worked out exactly equals the scoring under its own α', async () => {
    const { ground } = await prepareLive(engine, defaultSettings.constants);
    const exact = exactly(ground, 1);
    for (const [load, b] of loadsOf(ground)) expect(exact(load, b)).toBe(ground.walls.scored[load]);
  });
});

test('w^α by expansion is w^α rounded twice, for any wetting and α', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 3000 }).map((n) => n / 1000),
      fc.array(fc.integer({ min: 0, max: 60_000_000 }), { minLength: 400, maxLength: 400 }),
      (alpha, wettings) => {
        const toLoad = roundedLoad(alpha, 100);
        const plain = (wetting: number): number => {
          const w = Math.round((wetting / 1e5 / (wetting / 1e5 + 100)) * 1e6) / 1e6;
          return Math.round(w ** alpha * 1e6);
        };
        expect(wettings.map(toLoad)).toEqual(wettings.map(plain));
      },
    ),
    { seed: 20261125, numRuns: 100 },
  );
});

/** Scored walls of the few buildings whose walls leave few combinations open, with what the naive method asks of them. */
const fewDraws = `WITH size AS (
    SELECT c.b, sum(l.n * a.n) AS n
    FROM wall_case c
    JOIN (SELECT load_case, count(*) AS n FROM load_draw GROUP BY ALL) l USING (load_case)
    JOIN (SELECT assembly_case, count(*) AS n FROM assembly_draw GROUP BY ALL) a USING (assembly_case)
    GROUP BY c.b
  )
  SELECT c.b, s.terrain, s.height_used_m AS height_m, s.roof, s.use, s.rain_1, s.rain_2, s.rain_3, s.rain_4, s.rain_5,
    w.material, w.drainage_used AS drainage, w.gap_used_mm AS gap_mm, w.drainage_eff_pct, w.sheathing,
    w.installed_used AS installed, w.runoff, n.gap_asked_mm
  FROM wall_case c
  JOIN site s USING (b) JOIN wall w ON w.wall = c.wall JOIN need n ON n.wall = c.wall
  WHERE c.assembly_case IS NOT NULL AND s.rain_mm IS NOT NULL
    AND c.b IN (SELECT b FROM size WHERE n BETWEEN 20 AND 400 ORDER BY hash(b) LIMIT 12)`;

test('the index is the mean over every combination of what is not on record, worked out by loops', async () => {
  const table = await engine.query(fewDraws);
  const live = await prepareLive(engine, defaultSettings.constants);
  for (const asked of [weights(1.7, 0.5, 1.3), weights(0.4, 2, 0)]) {
    const greatest = new Map<number, number>();
    for (let i = 0; i < table.n; i++) {
      const facts = rowObject(table, i) as Facts;
      const gapAskedMm = facts.gap_asked_mm as number;
      const wall = { building: facts, wall: facts, gapAskedMm, settings: weighted(asked) };
      const b = facts.b as number;
      greatest.set(b, Math.max(greatest.get(b) ?? 0, mean(everyDraw(wall))));
    }
    const { cents } = rerank(live, asked);
    expect(greatest.size).toBe(12);
    for (const [b, expected] of greatest)
      expect(Math.abs(cents[b]! / 100 - expected)).toBeLessThan(0.006);
  }
});
