import { type Columns, numbers } from '../columns.ts';
import type { Engine } from '../engine/port.ts';
import type { Effect } from '../session-types.ts';

/** The places of a ranking, to compare another with: rank (NaN where not scored) and tier by building ordinal. */
export type Places = Columns;

export const placesNow = (engine: Engine): Promise<Places> =>
  engine.query('SELECT rank, tier FROM ranking ORDER BY b');

const FIRST = 20;

/** How far the ranking moved: leavers of the first 20, and buildings in another tier. */
export function effectOf(before: Places, after: Places): Effect {
  const [rankBefore, rankAfter] = [numbers(before, 'rank'), numbers(after, 'rank')];
  const [tierBefore, tierAfter] = [numbers(before, 'tier'), numbers(after, 'tier')];
  let firstTwenty = 0;
  let tier = 0;
  for (let b = 0; b < before.n; b++) {
    if (rankBefore[b]! <= FIRST && !(rankAfter[b]! <= FIRST)) firstTwenty += 1;
    if (tierBefore[b] !== tierAfter[b]) tier += 1;
  }
  return { firstTwenty, tier };
}
