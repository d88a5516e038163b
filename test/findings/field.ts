import type { Columns } from '../../analysis/columns.ts';
import { findingColumns } from '../../analysis/findings/columns.ts';
import type { PlannedUnit, PlanOutline } from '../../analysis/findings/plan.ts';
import { readFindings } from '../../analysis/findings/read.ts';
import { memorySource } from '../../analysis/read/memory-source.ts';
import type { ReadTable } from '../../analysis/read/outcome.ts';

/** Year the tests speak for. */
const asOf = 2026;

/** Buildings B0, B1 … with four walls each, W0 … W3. */
const walls: ReadonlyMap<string, ReadonlySet<string>> = new Map(
  Array.from({ length: 100 }, (_, b) => [`B${b}`, new Set(['W0', 'W1', 'W2', 'W3'])] as const),
);

export const findingsOf = (...lines: readonly string[]): Promise<ReadTable> =>
  readFindings(memorySource('findings.csv', `${lines.join('\n')}\n`), { asOf, walls });

/** Rows of findings, each from what it says beside the usual: an opening under plan P that saw the sheathing. */
export function findingTable(rows: readonly Readonly<Record<string, string | null>>[]): Columns {
  const usual: Readonly<Record<string, string>> = {
    method: 'opening',
    sheathing_seen: 'yes',
    plan_id: 'P',
  };
  const cols = findingColumns.map(({ name }) => [
    name,
    rows.map((row) => (name in row ? row[name]! : (usual[name] ?? null))),
  ]);
  const row = Float64Array.from(rows, (_, i) => i + 2);
  return { n: rows.length, cols: { ...Object.fromEntries(cols), row } };
}

/** An opening on the i-th wall. */
export const openingOn = (
  i: number,
  condition: string,
  more: Readonly<Record<string, string | null>> = {},
) => ({
  building_id: `B${i >> 2}`,
  wall_id: `W${i & 3}`,
  condition,
  ...more,
});

/** The i-th wall as a selected unit of a simple random sample of 20 from 60. */
export const unitOf = (i: number, more: Partial<PlannedUnit> = {}): PlannedUnit => ({
  unit: i,
  id: `B${i >> 2}/W${i & 3}`,
  cluster: `B${i >> 2}`,
  wall: `W${i & 3}`,
  stratum: 'all',
  probability: 20 / 60,
  weight: 3,
  certainty: false,
  replicate: null,
  replacementOrder: null,
  areaM2: 100,
  place: [],
  ...more,
});

/** A simple random sample of 20 from 60 walls of 100 m², changed as told. */
export const planOf = (more: Partial<PlanOutline> = {}): PlanOutline => ({
  planId: 'P',
  unit: 'wall',
  design: 'simple',
  strata: [{ stratum: 'all', units: 60, areaM2: 6000, areaUnknown: 0 }],
  units: Array.from({ length: 20 }, (_, i) => unitOf(i)),
  probabilitySample: true,
  ...more,
});
