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

export const weighted = ({ load, deficiency, susceptibility }: Weights): Settings =>
  withSettings({
    constants: {
      weight_load: load,
      weight_deficiency: deficiency,
      weight_susceptibility: susceptibility,
    },
  });

/** The run without intervals, on which neither index nor tier depends. */
const means = steps.map((step) => (step.name === 'wall_interval' ? noIntervals : step));

/** Scores what is loaded anew by the SQL, and reads what it found. */
export async function scoredWith(
  engine: Engine,
  settings: Settings,
  wind?: WindInRain,
): Promise<Found> {
  await score(engine, settings, wind, means);
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
