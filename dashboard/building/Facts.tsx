import { For, Show } from 'solid-js';
import type { BuildingDetail } from '../../analysis/session-types.ts';
import { Term } from '../parts/Term.tsx';
import { useDesk } from '../state/desk.ts';
import { type Fact, factsOf } from './facts.ts';

/** What is on record about the building, what is not, and the user's own columns. */
export function Facts(props: { readonly detail: BuildingDetail }) {
  const { state } = useDesk();
  const facts = () => factsOf(props.detail.record, state.units);
  return (
    <section class="facts">
      <div>
        <h3>On record</h3>
        <FactList facts={facts().onRecord} none="Nothing beyond the place is on record." />
      </div>
      <div>
        <h3>No record</h3>
        <p>{facts().missing.join(', ') || 'Every column of the building is filled.'}</p>
        <p class="soft">
          A blank is neither good nor bad: it widens the range from{' '}
          <Term of="low_high">low to high</Term>.
        </p>
      </div>
      <Show when={facts().own.length > 0}>
        <div>
          <h3>Your own columns</h3>
          <FactList facts={facts().own} none="" />
        </div>
      </Show>
    </section>
  );
}

function FactList(props: { readonly facts: readonly Fact[]; readonly none: string }) {
  return (
    <Show when={props.facts.length > 0} fallback={<p>{props.none}</p>}>
      <dl class="fact-list">
        <For each={props.facts}>
          {(fact) => (
            <div>
              <dt>{fact.label}</dt>
              <dd>{fact.text}</dd>
            </div>
          )}
        </For>
      </dl>
    </Show>
  );
}
