import { Show } from 'solid-js';

/** Why a field was not taken, in words beside it. */
export function FieldTrouble(props: { readonly id?: string; readonly message: string | null }) {
  return (
    <Show when={props.message}>
      {(message) => (
        <p class="field-trouble" id={props.id} role="alert">
          {message()}
        </p>
      )}
    </Show>
  );
}
