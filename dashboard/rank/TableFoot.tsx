import { createMemo, For, Show } from 'solid-js';
import { Term } from '../parts/Term.tsx';
import { explained } from '../parts/terms.ts';
import { useDesk } from '../state/desk.ts';
import type { Ranking } from './ranking.ts';

/** What the headings take for granted, in the order of data/terms.csv. */
const terms = [
  'wetting',
  'index',
  'low_high',
  'tier',
  'drainage_state',
  'drainage_need',
  'code_now',
  'practice',
  'sheathing',
] as const;

/** Said once on the screen: what *rain* is, where it comes from, how to read the strip, and what the words mean. */
export function TableFoot(props: { readonly ranking: Ranking }) {
  const desk = useDesk();
  const source = createMemo((before: string) => {
    const b = desk.state.selected ?? props.ranking.order()[0];
    const row = b === undefined ? undefined : props.ranking.row(b);
    return [row?.rain_source, row?.rain_period].filter(Boolean).join(', ') || before;
  }, '');
  return (
    <p class="table-foot">
      <b>Rain</b> is annual precipitation, melted snow included
      <Show when={source()}>: {source()}</Show>. Dashes in a strip mean <i>no record</i>; what is
      likely is drawn. What the words mean:{' '}
      <For each={terms}>
        {(term, i) => (
          <>
            {i() === 0 ? '' : ', '}
            <Term of={term}>{explained(term).words.toLowerCase()}</Term>
          </>
        )}
      </For>
      .
    </p>
  );
}
