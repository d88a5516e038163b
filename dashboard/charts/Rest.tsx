import { Show } from 'solid-js';
import { counted, digits } from '../parts/format.ts';

/** Rows that a chart has no room for, and the buildings in them; nothing where there are none. */
export function Rest(props: {
  readonly of: { readonly rows: number; readonly kept: number };
  /** What a row is: *region*. */
  readonly noun: string;
}) {
  return (
    <Show when={props.of.rows > 0}>
      <p class="rest">
        {counted(props.of.rows, `more ${props.noun}`)}: {digits(props.of.kept, 0)}
      </p>
    </Show>
  );
}
