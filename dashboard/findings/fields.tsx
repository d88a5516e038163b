import { createUniqueId, For, type JSX } from 'solid-js';
import { label, plainWord } from '../parts/words.ts';
import { FieldTrouble } from '../settings/FieldTrouble.tsx';
import type { Draft } from './draft.ts';
import { type WordColumn, wordsOf } from './vocabulary.ts';

interface FieldProps {
  readonly column: string;
  readonly draft: Draft;
  readonly trouble: string | null;
  readonly onText: (text: string) => void;
}

/** What a control needs to be the one of its label, and to say what is wanted of it. */
export interface ControlAttributes {
  readonly id: string;
  readonly class: string;
  readonly 'aria-describedby': string | undefined;
  readonly 'aria-invalid': true | undefined;
}

/** A labelled field with what is wanted of it. */
export function Field(props: {
  readonly words: string;
  readonly trouble: string | null;
  readonly children: (control: ControlAttributes) => JSX.Element;
}) {
  const id = createUniqueId();
  const why = createUniqueId();
  const control: ControlAttributes = {
    id,
    class: 'log-input',
    get 'aria-describedby'() {
      return props.trouble ? why : undefined;
    },
    get 'aria-invalid'() {
      return props.trouble ? true : undefined;
    },
  };
  return (
    <div class="log-field">
      <label for={id}>{props.words}</label>
      {props.children(control)}
      <FieldTrouble id={why} message={props.trouble} />
    </div>
  );
}

export function TextField(
  props: FieldProps & { readonly words: string; readonly type: 'text' | 'number' | 'date' },
) {
  return (
    <Field words={props.words} trouble={props.trouble}>
      {(control) => (
        <input
          type={props.type}
          step="any"
          value={props.draft[props.column] ?? ''}
          onChange={(event) => props.onText(event.currentTarget.value)}
          {...control}
        />
      )}
    </Field>
  );
}

export function ChoiceField(
  props: FieldProps & { readonly words: string; readonly options: readonly string[] },
) {
  return (
    <Field words={props.words} trouble={props.trouble}>
      {(control) => (
        <select onChange={(event) => props.onText(event.currentTarget.value)} {...control}>
          <option value="" selected={!props.draft[props.column]}>
            not said
          </option>
          <For each={props.options}>
            {(option) => (
              <option value={option} selected={props.draft[props.column] === option}>
                {plainWord(option)}
              </option>
            )}
          </For>
        </select>
      )}
    </Field>
  );
}

export const WordField = (
  props: FieldProps & { readonly words: string; readonly word: WordColumn },
) => <ChoiceField {...props} options={wordsOf(props.word)} />;

/** The name of a picture; the picture itself is not read and not kept. */
export function PhotoField(props: FieldProps) {
  const id = createUniqueId();
  const name = () => props.draft[props.column] ?? '';
  const taken = (input: HTMLInputElement) => {
    props.onText([...(input.files ?? [])].map((file) => file.name).join('; '));
    input.value = '';
  };
  return (
    <div class="log-field">
      <label for={id}>{label(props.column)}, file name only</label>
      <input
        id={id}
        class="log-input"
        type="text"
        value={name()}
        onChange={(event) => props.onText(event.currentTarget.value)}
      />
      <label class="plain-button name-of-file">
        take the name of a file
        <input
          type="file"
          multiple
          accept="image/*"
          onChange={(event) => taken(event.currentTarget)}
        />
      </label>
    </div>
  );
}
