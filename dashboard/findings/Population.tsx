import { createSignal, For, Show } from 'solid-js';
import { FieldTrouble } from '../settings/FieldTrouble.tsx';
import { patch } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { viewFragment } from '../state/fragment.ts';
import { type Asked, confidenceTrouble, detectionTrouble, optionsOf, usual } from './asked.ts';
import { PlanReading } from './PlanReading.tsx';
import type { Printing } from './printing.ts';

/** What the findings say of the population that each locked plan was drawn from. */
export function Population(props: { readonly printing: Printing }) {
  const { survey } = useDesk();
  const [asked, setAsked] = createSignal<Asked>(usual);
  const [options, setOptions] = createSignal(optionsOf(usual)!);
  const change = (part: Partial<Asked>) => {
    const next = { ...asked(), ...part };
    setAsked(next);
    const taken = optionsOf(next);
    if (taken) setOptions(taken);
  };
  return (
    <section class="population" aria-labelledby="population-title">
      <h3 id="population-title">What they say of the population</h3>
      <Show when={survey.plans().length > 0} fallback={<NoPlan />}>
        <Asking asked={asked()} onChange={change} />
        <For each={survey.plans()}>
          {(locked) => (
            <PlanReading locked={locked} options={options()} printing={props.printing} />
          )}
        </For>
      </Show>
    </section>
  );
}

function Asking(props: {
  readonly asked: Asked;
  readonly onChange: (part: Partial<Asked>) => void;
}) {
  return (
    <div class="asking">
      <label>
        Confidence of the intervals, %{' '}
        <input
          type="number"
          min="50"
          max="99.9"
          step="any"
          value={props.asked.confidence}
          onChange={(event) => props.onChange({ confidence: event.currentTarget.value })}
        />
      </label>
      <label>
        Chance that an opening on softened or decayed sheathing shows it, 0.05 to 1{' '}
        <input
          type="number"
          min="0.05"
          max="1"
          step="any"
          value={props.asked.detection}
          onChange={(event) => props.onChange({ detection: event.currentTarget.value })}
        />
      </label>
      <FieldTrouble message={confidenceTrouble(props.asked)} />
      <FieldTrouble message={detectionTrouble(props.asked)} />
    </div>
  );
}

/** Without a plan there is nothing to estimate: what to do instead. */
function NoPlan() {
  const { state, apply } = useDesk();
  return (
    <p class="panel-state">
      No plan is locked yet, so nothing can be said of walls that were not opened: findings that
      nobody planned show what is there, not how common it is. Choose the walls in{' '}
      <a
        href={viewFragment(state, 'Sample')}
        onClick={(event) => {
          event.preventDefault();
          apply(patch({ view: 'Sample', opened: false }));
        }}
      >
        Sample
      </a>
      , lock the plan there before fieldwork, and log what is found under its name.
    </p>
  );
}
