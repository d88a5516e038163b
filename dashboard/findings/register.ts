import type { FindingsView } from '../../analysis/survey/findings.ts';
import type { LockedPlan } from '../../analysis/survey/plan-standing.ts';
import type { Value } from '../parts/format.ts';
import { type LoggedFinding, loggedName } from '../state/survey.ts';
import { type Belonging, belongingIn } from './belonging.ts';

type Cells = Readonly<Record<string, Value>>;

/** One line of the register of findings. */
export interface Entry {
  readonly key: string;
  readonly cells: Cells;
  /** Where it comes from, in words. */
  readonly from: string;
  /** Null where it comes from a file. */
  readonly logged: LoggedFinding | null;
  readonly standing: 'on record' | 'set aside' | 'struck out';
  /** Why it was set aside. */
  readonly reason: string | null;
  readonly belongs: Belonging;
}

type Lookup = (cells: Cells) => Belonging;

function fileEntries({ rows }: FindingsView, lookup: Lookup): Entry[] {
  return rows
    .filter(({ file }) => file !== loggedName)
    .map((cells) => ({
      key: `${cells.file}:${cells.row}`,
      cells,
      from: `${cells.file}, row ${cells.row}`,
      logged: null,
      standing: 'on record',
      reason: null,
      belongs: lookup(cells),
    }));
}

/** Why rows of the findings logged in the page were set aside, by row as the reader counts them. */
function asideRows(view: FindingsView | null): ReadonlyMap<number, string> {
  const own = (view?.remarks ?? []).filter(
    ({ file, outcome }) => file === loggedName && outcome === 'row set aside',
  );
  return new Map(own.map(({ row, message }) => [row, message]));
}

function pageEntries(
  logged: readonly LoggedFinding[],
  aside: ReadonlyMap<number, string>,
  lookup: Lookup,
): Entry[] {
  // The reader sees those not struck out, from row 2 on.
  let row = 1;
  return logged.map((one): Entry => {
    const struck = one.struck !== null;
    if (!struck) row += 1;
    const reason = struck ? null : (aside.get(row) ?? null);
    return {
      key: one.id,
      cells: one.cells,
      from: `logged here as ${one.id}`,
      logged: one,
      standing: struck ? 'struck out' : reason === null ? 'on record' : 'set aside',
      reason,
      belongs: lookup(one.cells),
    };
  });
}

/** Every finding, those logged in the page first, the newest of them on top, then those of the file. */
export function registerOf(
  view: FindingsView | null,
  logged: readonly LoggedFinding[],
  plans: readonly LockedPlan[],
): readonly Entry[] {
  const lookup = belongingIn(plans);
  const own = pageEntries(logged, asideRows(view), lookup).reverse();
  return [...own, ...(view ? fileEntries(view, lookup) : [])];
}
