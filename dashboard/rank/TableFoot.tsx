import { createMemo, Show } from 'solid-js';
import { useDesk } from '../state/desk.ts';
import type { Ranking } from './ranking.ts';

/** Said once on the screen: what *rain* is, where it comes from, and how to read the strip. */
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
      likely is drawn.
    </p>
  );
}
