import { For, Show } from 'solid-js';

/** Reasons why something could not be done, or remarks on what was: each a sentence of its own. */
export function Says(props: { readonly says: readonly string[]; readonly tone?: 'alarm' }) {
  return (
    <Show when={props.says.length > 0}>
      <ul
        class="sample-says"
        data-tone={props.tone}
        role={props.tone === 'alarm' ? 'alert' : undefined}
      >
        <For each={props.says}>{(sentence) => <li>{sentence}</li>}</For>
      </ul>
    </Show>
  );
}
