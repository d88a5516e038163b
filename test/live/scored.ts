import { numbers } from '../../analysis/columns.ts';
import type { Engine } from '../../analysis/engine/port.ts';
import { noIntervals, score, steps } from '../../analysis/pipeline.ts';
import type { Weights } from '../../analysis/session-types.ts';
import { type Settings, withSettings } from '../../analysis/settings.ts';
import type { WindInRain } from '../../analysis/wetting/wind.ts';

/** What a scoring found, by building ordinal; NaN is no record. */
export interface Found {
  readonly index: Float64Array;
  readonly tier: Float64Array;
  readonly leak: Float64Array;
  readonly rank: Float64Array;
}

export const weights = (load: number, deficiency: number, susceptibility: number): Weights => ({
  load,
  deficiency,
  susceptibility,
});

export const weighted = ({ load, deficiency, susceptibility }: Weights): Settings =>
  withSettings({
    constants: {
      weight_load: load,
      weight_deficiency: deficiency,
      weight_susceptibility: susceptibility,
    },
  });

/** The method without intervals, on which neither index nor tier depends. */
const means = steps.map((step) => (step.name === noIntervals.name ? noIntervals : step));
/** Its part behind all that no weight enters. */
const weightsOnward = means.slice(means.findIndex(({ name }) => name === 'assembly_draw'));

/** Scores what is loaded by every step of the method, and reads what it found. */
export async function scoredWhole(
  engine: Engine,
  settings: Settings,
  wind?: WindInRain,
): Promise<Found> {
  await score(engine, settings, wind);
  return found(engine);
}

/** Scores what was scored before by the steps that weights enter. */
export async function scoredWith(
  engine: Engine,
  settings: Settings,
  wind?: WindInRain,
): Promise<Found> {
  await score(engine, settings, wind, weightsOnward);
  return found(engine);
}

/** What the last scoring found. */
export async function found(engine: Engine): Promise<Found> {
  const table = await engine.query(
    'SELECT t.index, t.tier, t.leak, r.rank FROM tiered t LEFT JOIN rank_of r USING (b) ORDER BY t.b',
  );
  return {
    index: numbers(table, 'index'),
    tier: numbers(table, 'tier'),
    leak: numbers(table, 'leak'),
    rank: numbers(table, 'rank'),
  };
}

/** Ordinals as rank_of.sql has them, but with the rank of an earlier scoring among a leak and an index alike. */
export function orderOf({ index, tier, leak }: Found, before: Found): Int32Array {
  const orLast = (value: number, last: number) => (Number.isNaN(value) ? last : value);
  const isRanked = (b: number) => (tier[b]! < 4 ? 1 : 0);
  return Int32Array.from(
    Array.from(index.keys()).sort(
      (a, b) =>
        isRanked(b) - isRanked(a) ||
        isRanked(a) * (leak[b]! - leak[a]!) ||
        orLast(index[b]!, -1) - orLast(index[a]!, -1) ||
        orLast(before.rank[a]!, Number.MAX_VALUE) - orLast(before.rank[b]!, Number.MAX_VALUE) ||
        a - b,
    ),
  );
}
