import type { Value } from '../parts/format.ts';
import { label } from '../parts/words.ts';
import { needInFull } from '../rank/need-words.ts';

/** Shares are estimates: whole percents, none of them 0 or certain. */
export function shareWords(share: number): string {
  const percent = Math.round(share * 100);
  if (percent < 1) return 'under 1 %';
  return percent > 99 ? 'over 99 %' : `${percent} %`;
}

/** A need as a clause of a sentence: *asks (IBC 2021, § 2510.6.2)*, *cannot tell (use)*, *does not ask*. */
export function needClause(need: Value): string {
  const [verdict = '', detail] = splitNeed(need);
  return detail ? `${verdict} (${detail})` : verdict;
}

function splitNeed(need: Value): readonly string[] {
  const text = String(need ?? '');
  const missing = 'cannot tell: ';
  if (text.startsWith(missing))
    return ['cannot tell', label(text.slice(missing.length)).toLowerCase()];
  const full = needInFull(need);
  const at = full.indexOf(': ');
  return at < 0 ? [full] : [full.slice(0, at), full.slice(at + 2)];
}
