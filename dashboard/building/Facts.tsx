import { Show } from 'solid-js';
import type { BuildingDetail } from '../../analysis/session-types.ts';
import { Term } from '../parts/Term.tsx';
import { useDesk } from '../state/desk.ts';
import { FactList } from './FactList.tsx';
import { factsOf } from './facts.ts';

/** What is on record about the building, what is not, and the user's own columns. */
export function Facts(props: { readonly detail: BuildingDetail }) {
  const { state } = useDesk();
  const facts = () => factsOf(props.detail.record, state.units);
  return (
    <section class="facts">
      <div>
        <h3>On record</h3>
        <Show
          when={facts().onRecord.length > 0}
          fallback={<p>Nothing beyond the place is on record.</p>}
        >
          <FactList class="fact-list" facts={facts().onRecord} />
        </Show>
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
          <FactList class="fact-list" facts={facts().own} />
        </div>
      </Show>
    </section>
  );
}
