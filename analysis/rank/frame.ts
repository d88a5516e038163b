import { type Columns, cell, numbers, texts } from '../columns.ts';
import type { Engine } from '../engine/port.ts';
import { type Counted, type Frame, type Tier, tiers } from '../session-types.ts';

/** What the map and the filters need of every building, in order of its ordinal. */
export async function frame(engine: Engine): Promise<Frame> {
  const table = await engine.query(
    'SELECT longitude, latitude, tier, tier_low, tier_high, index FROM ranking ORDER BY b',
  );
  const most = await engine.query('SELECT max(wetting_l_m2) AS most FROM ranking');
  return {
    n: table.n,
    longitude: numbers(table, 'longitude'),
    latitude: numbers(table, 'latitude'),
    tier: Uint8Array.from(numbers(table, 'tier')),
    index: numbers(table, 'index'),
    counts: {
      tier: tierCounts(table, 'tier'),
      tierLow: tierCounts(table, 'tier_low'),
      tierHigh: tierCounts(table, 'tier_high'),
      region: await counted(engine, 'region'),
      material: await counted(engine, 'material'),
    },
    wettingMax: Number(cell(most, 'most', 0) ?? 0),
  };
}

function tierCounts(table: Columns, column: string): Record<Tier, number> {
  const counts = tiers.map((name) => [name, 0] as [Tier, number]);
  for (const tier of numbers(table, column)) counts[tier]![1] += 1;
  return Object.fromEntries(counts) as Record<Tier, number>;
}

async function counted(engine: Engine, column: 'region' | 'material'): Promise<Counted[]> {
  const table = await engine.query(
    `SELECT ${column} AS value, count(*) AS n FROM ranking GROUP BY ALL ORDER BY n DESC, value NULLS LAST`,
  );
  return texts(table, 'value').map((value, i) => ({ value, n: numbers(table, 'n')[i]! }));
}
