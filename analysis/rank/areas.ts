import { numbers } from '../columns.ts';
import type { Engine } from '../engine/port.ts';
import { type TierArea, tiers } from '../session-types.ts';

const text = `
  SELECT tier_of(round(x.index, 2), false, k.tier_first_look, k.tier_next_look, k.tier_keep_watch) AS tier,
    count(*) AS walls,
    coalesce(sum(CAST(round(w.area_used_m2 * 1e3) AS BIGINT)), 0) / 1e3 AS area_m2,
    count(*) - count(w.area_used_m2) AS unknown_area
  FROM wall w JOIN wall_index x USING (wall), k
  WHERE w.scored
  GROUP BY tier ORDER BY tier`;

/** Area of the scored walls by the tier of their own index. */
export async function wallAreas(engine: Engine): Promise<TierArea[]> {
  const table = await engine.query(text);
  return Array.from(numbers(table, 'tier'), (tier, i) => ({
    tier: tiers[tier]!,
    walls: numbers(table, 'walls')[i]!,
    areaM2: numbers(table, 'area_m2')[i]!,
    unknownArea: numbers(table, 'unknown_area')[i]!,
  }));
}
