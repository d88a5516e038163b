import { type Columns, numbers } from '../columns.ts';
import type { Constants } from '../constants.ts';
import type { Engine } from '../engine/port.ts';
import { type ReferenceRow, referenceRows } from '../reference.ts';
import type { Chase, FactValue } from '../session-types.ts';

const facts = referenceRows('facts');
const questions = 3;

/**
 * Records worth chasing: for each fact how many ranking walls lack it, how much of their spread it explains, and how
 * many buildings would lie in one tier if it were known; and the three facts that together settle most.
 *
 * To be settled is an estimate: knowing facts that explain the share v of the variance is taken to shrink the interval
 * about the index by √(1 − v), shares adding up.
 */
export async function chase(engine: Engine, constants: Constants): Promise<Chase> {
  const shares = facts.map(({ fact }) => `share_${fact}`).join(', ');
  const rows = await engine.query(
    `SELECT index, index_low, index_high, ${shares} FROM ranking WHERE index IS NOT NULL ORDER BY b`,
  );
  const settles = settler(rows, constants);
  const none = settles([]);
  const values = facts.map((row) => factValue(rows, row, settles, none));
  return {
    scored: rows.n,
    settled: none,
    facts: values
      .filter(({ buildings }) => buildings > 0)
      .sort((a, b) => b.settles - a.settles || b.share * b.buildings - a.share * a.buildings),
    questions: chosen(settles),
  };
}

const shareOf = (rows: Columns, { fact }: ReferenceRow): Float64Array =>
  numbers(rows, `share_${fact}`);

function factValue(
  rows: Columns,
  row: ReferenceRow,
  settles: (known: readonly ReferenceRow[]) => number,
  none: number,
): FactValue {
  const open = shareOf(rows, row).filter((share) => share > 0);
  const mean = open.reduce((sum, share) => sum + share, 0) / Math.max(1, open.length);
  return {
    fact: row.fact!,
    label: row.label!,
    buildings: open.length,
    share: Math.round(mean * 1e4) / 1e4,
    settles: settles([row]) - none,
  };
}

/** How many buildings lie in one tier from low to high once these facts are known. */
function settler(rows: Columns, constants: Constants): (known: readonly ReferenceRow[]) => number {
  const [index, low, high] = ['index', 'index_low', 'index_high'].map((name) =>
    numbers(rows, name),
  ) as [Float64Array, Float64Array, Float64Array];
  const thresholds = ['tier_first_look', 'tier_next_look', 'tier_keep_watch'].map(
    (name) => constants[name]!,
  );
  const tier = (x: number): number => thresholds.filter((threshold) => x >= threshold).length;
  return (known) => {
    const shares = known.map((row) => shareOf(rows, row));
    let n = 0;
    for (let i = 0; i < rows.n; i++) {
      const explained = shares.reduce((sum, share) => sum + (share[i]! || 0), 0);
      const left = Math.sqrt(Math.max(0, 1 - explained));
      const middle = index[i]!;
      const from = middle - Math.max(0, middle - low[i]!) * left;
      const to = middle + Math.max(0, high[i]! - middle) * left;
      if (tier(from) === tier(to)) n += 1;
    }
    return n;
  };
}

/** The facts to ask for, each the one that settles most beside those before it. */
function chosen(settles: (known: readonly ReferenceRow[]) => number): Chase['questions'] {
  const asked: ReferenceRow[] = [];
  const out: { fact: string; label: string; question: string; settled: number }[] = [];
  let settled = settles([]);
  for (let i = 0; i < questions; i++) {
    const best = facts
      .filter((row) => !asked.includes(row))
      .map((row) => ({ row, n: settles([...asked, row]) }))
      .sort((a, b) => b.n - a.n)[0];
    if (!best || best.n <= settled) break;
    asked.push(best.row);
    settled = best.n;
    const { fact, label, question } = best.row;
    out.push({ fact: fact!, label: label!, question: question!, settled });
  }
  return out;
}
