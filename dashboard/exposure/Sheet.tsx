import { createUniqueId, For, type JSX } from 'solid-js';

/**
 * A table in a stretch of its own that scrolls. What it shows is said above it and not in a caption, which would scroll
 * away with the columns.
 */
export function Sheet(props: {
  readonly says: string;
  readonly class: string;
  readonly children: JSX.Element;
}) {
  const id = createUniqueId();
  return (
    <>
      <p class="exposure-says" id={id}>
        {props.says}
      </p>
      <section class="exposure-scroll" tabindex={0} aria-labelledby={id}>
        <table class={props.class} aria-labelledby={id}>
          {props.children}
        </table>
      </section>
    </>
  );
}

/** Headings of a table: its words first, then its figures. */
export function Heads(props: {
  readonly words: readonly string[];
  readonly figures: readonly string[];
}) {
  return (
    <thead>
      <tr>
        <For each={props.words}>{(word) => <th scope="col">{word}</th>}</For>
        <For each={props.figures}>
          {(word) => (
            <th scope="col" class="right">
              {word}
            </th>
          )}
        </For>
      </tr>
    </thead>
  );
}
