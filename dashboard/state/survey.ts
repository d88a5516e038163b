import { csvFormatRows } from 'd3';
import { createEffect, createSignal, on } from 'solid-js';
import { findingColumns } from '../../analysis/findings/columns.ts';
import type { FindingsView } from '../../analysis/survey/findings.ts';
import type { LockedPlan } from '../../analysis/survey/plan-standing.ts';
import { fileSource } from '../client/files.ts';
import { messageOf } from '../parts/message-of.ts';
import type { Held } from './held.ts';
import type { Keeping } from './keeping.ts';
import type { Session } from './session.ts';

type Cells = Readonly<Record<string, string>>;

/** A finding written down in the page, by columns of the contract; earlier wordings are kept. */
export interface LoggedFinding {
  readonly id: string;
  readonly cells: Cells;
  /** Oldest first: what it said until then. */
  readonly history: readonly { readonly until: string; readonly cells: Cells }[];
  /** When it was struck out; it is not read any more, and kept. */
  readonly struck: string | null;
}

/** Plans and findings of the workspace. */
export interface Survey {
  readonly plans: () => readonly LockedPlan[];
  readonly lock: (locked: LockedPlan) => void;
  readonly forget: (planId: string) => void;
  readonly logged: () => readonly LoggedFinding[];
  readonly log: (cells: Cells) => void;
  readonly amend: (id: string, cells: Cells) => void;
  readonly strike: (id: string) => void;
  /** Findings on record, from files at hand with that role and from the page; null while none were read. */
  readonly findings: () => FindingsView | null;
  /** Why findings could not be read, in words. */
  readonly trouble: () => string | null;
}

/** The name under which findings logged in the page are read. */
export const loggedName = 'logged-in-the-page.csv';

const now = (): string => new Date().toISOString();

export function createSurvey(session: Session, keeping: Keeping, held: () => Held): Survey {
  const kept = <T>(name: string): readonly T[] => (keeping.more(name) ?? []) as readonly T[];
  const [plans, setPlans] = createSignal(kept<LockedPlan>('plans'));
  const [logged, setLogged] = createSignal(kept<LoggedFinding>('logged'));
  const [findings, setFindings] = createSignal<FindingsView | null>(null);
  const [trouble, setTrouble] = createSignal<string | null>(null);
  const workspace = () => keeping.current()?.workspace.id;

  createEffect(
    on(
      workspace,
      () => {
        setPlans(kept<LockedPlan>('plans'));
        setLogged(kept<LoggedFinding>('logged'));
      },
      { defer: true },
    ),
  );
  const changePlans = (next: readonly LockedPlan[]) => {
    setPlans(next);
    keeping.keepMore('plans', next);
  };
  const changeLogged = (next: readonly LoggedFinding[]) => {
    setLogged(next);
    keeping.keepMore('logged', next);
  };
  const sources = () => [
    ...held()
      .files.filter(({ role }) => role === 'findings')
      .map(({ file }) => file),
    ...loggedFile(logged()),
  ];
  createEffect(
    on([() => session.opened()?.inputs, sources], async ([inputs, files]) => {
      if (!inputs) return;
      try {
        setFindings(await session.analyst.readFindings(files.map(fileSource)));
        setTrouble(null);
      } catch (error) {
        setTrouble(messageOf(error));
      }
    }),
  );
  return {
    plans,
    lock: (locked) => changePlans([...plans(), locked]),
    forget: (planId) => changePlans(plans().filter(({ plan }) => plan.head.planId !== planId)),
    logged,
    log: (cells) =>
      changeLogged([
        ...logged(),
        { id: `F${logged().length + 1}`, cells, history: [], struck: null },
      ]),
    amend: (id, cells) =>
      changeLogged(
        logged().map((one) =>
          one.id === id
            ? { ...one, cells, history: [...one.history, { until: now(), cells: one.cells }] }
            : one,
        ),
      ),
    strike: (id) =>
      changeLogged(logged().map((one) => (one.id === id ? { ...one, struck: now() } : one))),
    findings,
    trouble,
  };
}

/** Findings logged in the page as a file like any other: row i + 2 is the i-th that was not struck out. */
function loggedFile(logged: readonly LoggedFinding[]): File[] {
  const standing = logged.filter(({ struck }) => struck === null);
  if (standing.length === 0) return [];
  const names = findingColumns.filter(({ derived }) => !derived).map(({ name }) => name);
  const rows = standing.map(({ cells }) => names.map((name) => cells[name] ?? ''));
  return [new File([csvFormatRows([names, ...rows])], loggedName, { type: 'text/csv' })];
}
