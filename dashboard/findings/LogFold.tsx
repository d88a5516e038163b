import { createEffect, createSignal, on, Show } from 'solid-js';
import { useDesk } from '../state/desk.ts';
import type { LoggedFinding } from '../state/survey.ts';
import { cellsOf, type Draft, emptyDraft, nextDraft } from './draft.ts';
import { LogForm } from './LogForm.tsx';
import type { Entry } from './register.ts';

/** Where a finding is written down, or one that was written down is worded anew. */
export function LogFold(props: {
  readonly amending: LoggedFinding | null;
  readonly entries: readonly Entry[];
  readonly onDone: () => void;
}) {
  const { survey, held } = useDesk();
  const nothingYet =
    survey.logged().length === 0 && !held().files.some(({ role }) => role === 'findings');
  const [open, setOpen] = createSignal(nothingYet);
  const [draft, setDraft] = createSignal<Draft>(emptyDraft);
  const [kept, setKept] = createSignal('');
  let fold: HTMLDetailsElement | undefined;

  createEffect(
    on(
      () => props.amending,
      (one) => {
        setKept('');
        if (!one) return;
        setDraft(one.cells);
        setOpen(true);
        fold?.scrollIntoView({ block: 'start' });
        fold?.querySelector<HTMLElement>('select, input')?.focus({ preventScroll: true });
      },
      { defer: true },
    ),
  );
  const change = (next: Draft) => {
    setKept('');
    setDraft(next);
  };
  const keep = () => {
    const cells = cellsOf(draft());
    const one = props.amending;
    if (one) survey.amend(one.id, cells);
    else survey.log(cells);
    props.onDone();
    setDraft(nextDraft(draft()));
    setKept(
      one
        ? `${one.id} was amended; its earlier wording is kept.`
        : `The finding on wall ${cells.wall_id} of building ${cells.building_id} was logged.`,
    );
  };
  const leave = () => {
    props.onDone();
    setDraft(nextDraft(draft()));
  };
  return (
    <>
      <details
        class="log-fold"
        ref={fold}
        open={open()}
        onToggle={(event) => setOpen(event.currentTarget.open)}
      >
        <summary>{props.amending ? `Amend ${props.amending.id}` : 'Log a finding'}</summary>
        <LogForm
          draft={draft()}
          entries={props.entries}
          onDraft={change}
          onKeep={keep}
          verb={props.amending ? 'Keep the new wording' : 'Log this finding'}
        />
        <Show when={props.amending}>
          <button type="button" class="plain-button" onClick={leave}>
            leave {props.amending?.id} as it is
          </button>
        </Show>
      </details>
      <p role="status">{kept()}</p>
    </>
  );
}
