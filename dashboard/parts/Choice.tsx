import { createUniqueId, For } from 'solid-js';

/** One of a few words: native radio buttons set as a line of text, the chosen word underlined. */
export function Choice<T extends string>(props: {
  readonly legend: string;
  readonly words: readonly { readonly value: T; readonly word: string }[];
  readonly value: T;
  readonly onChoose: (value: T) => void;
}) {
  const name = createUniqueId();
  return (
    <fieldset class="choice">
      <legend>{props.legend}</legend>
      <For each={props.words}>
        {(option) => (
          <label>
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={props.value === option.value}
              onChange={() => props.onChoose(option.value)}
            />
            {option.word}
          </label>
        )}
      </For>
    </fieldset>
  );
}
