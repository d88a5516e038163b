import { tiers } from '../../analysis/session-types.ts';
import type { CellSummary } from './tiles/cells.ts';

/** A figure and its word stay on one line. */
const joint = '\u00a0';
const whole = (n: number) => n.toLocaleString('en');

/** `1,240 buildings here: 31 First look, 209 No flag, 1,000 Not scored; mean index 22.4.` */
export function cellSentence({ n, counts, meanIndex }: CellSummary): string {
  const byTier = tiers.flatMap((tier, t) =>
    counts[t]! > 0 ? [`${whole(counts[t]!)}${joint}${tier}`] : [],
  );
  const mean = Number.isNaN(meanIndex)
    ? 'none with an index'
    : `mean index${joint}${meanIndex.toFixed(1)}`;
  return `${whole(n)} buildings here: ${byTier.join(', ')}; ${mean}.`;
}
