import { createMemo, createResource, createSignal, For, Show } from 'solid-js';
import type { LockedPlan } from '../../analysis/survey/plan-standing.ts';
import { changedInputs, isChanged, shownLocked } from '../../analysis/survey/plan-standing.ts';
import { useDesk } from '../state/desk.ts';
import { inputDigests } from './input-digests.ts';
import { PlanView } from './PlanView.tsx';
import type { Printed } from './Printout.tsx';
import { Says } from './Says.tsx';

/** Plans that were locked. They cannot be changed here; whether they were elsewhere is checked whenever they are shown. */
export function LockedPlans(props: { readonly onPrint: (printed: Printed) => void }) {
  const { session, survey, keeping } = useDesk();
  const [digests] = createResource(
    () => session.opened()?.inputs,
    (inputs) => inputDigests(inputs),
  );
  return (
    <Show when={survey.plans().length > 0}>
      <section aria-label="Locked plans">
        <h3>Locked plans</h3>
        <p class="soft">
          {keeping.current()
            ? 'Kept with your workspace.'
            : 'Over the invented example they last until the page is closed: save what you need.'}
        </p>
        <For each={survey.plans()}>
          {(locked) => (
            <Locked
              locked={locked}
              digests={digests.state === 'ready' ? digests() : undefined}
              onPrint={props.onPrint}
            />
          )}
        </For>
      </section>
    </Show>
  );
}

function Locked(props: {
  readonly locked: LockedPlan;
  readonly digests: Readonly<Record<string, string>> | undefined;
  readonly onPrint: (printed: Printed) => void;
}) {
  const { survey } = useDesk();
  const [sure, setSure] = createSignal(false);
  const [open, setOpen] = createSignal(false);
  const shown = createMemo(() => shownLocked(props.locked));
  const head = () => props.locked.plan.head;
  const changed = createMemo(() => isChanged(shown()));
  const inputs = () => (props.digests ? changedInputs(props.locked.plan, props.digests) : []);
  return (
    <article class="locked-plan">
      <h4>{head().planId}</h4>
      <p>
        Chosen by {head().chosenBy} on {head().chosenOn}; locked {props.locked.lockedAt}. SHA-256{' '}
        <code>{props.locked.digest}</code>
      </p>
      <Show
        when={changed()}
        fallback={<p class="soft">As it was locked: its text still has this digest.</p>}
      >
        <Says
          tone="alarm"
          says={[
            'This plan is not what was locked: its text no longer has this digest. Don’t rest an estimate on it; go back to a file saved when it was locked.',
          ]}
        />
      </Show>
      <Show when={inputs().length > 0}>
        <Says
          says={[
            'Other files are open than those the plan was drawn from. It stands as it is; its units, strata and chances are those of its own frame.',
            ...inputs(),
          ]}
        />
      </Show>
      <details open={open()} onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>Walls to open, files and sheets to print</summary>
        <Show when={open()}>
          <PlanView shown={shown()} onPrint={props.onPrint} />
        </Show>
      </details>
      <Show
        when={sure()}
        fallback={
          <button type="button" class="plain-button" onClick={() => setSure(true)}>
            Forget this plan
          </button>
        }
      >
        <p role="alert">
          Findings tied to {head().planId} will count as opportunistic.{' '}
          <button type="button" class="plain-button" onClick={() => survey.forget(head().planId)}>
            Forget it
          </button>{' '}
          <button type="button" class="plain-button" onClick={() => setSure(false)}>
            Keep it
          </button>
        </p>
      </Show>
    </article>
  );
}
