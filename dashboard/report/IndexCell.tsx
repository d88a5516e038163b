import { Show } from 'solid-js';
import { show, type Value } from '../parts/format.ts';

/** An index with its low and high beneath. */
export function IndexCell(props: { readonly of: Readonly<Record<string, Value>> }) {
  const text = (column: string) => show(props.of[column], column, 'metric');
  return (
    <td>
      <Show when={typeof props.of.index === 'number'} fallback="not scored">
        <b>{text('index')}</b>
        <small class="ends">
          {text('index_low')} – {text('index_high')}
        </small>
      </Show>
    </td>
  );
}
