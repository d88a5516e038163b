import { For, Show } from 'solid-js';
import type { ColumnMap, UnmatchedValue } from '../../analysis/mapping/column-map.ts';
import { wordsOf } from '../../analysis/read/vocabulary.ts';
import { counted } from '../parts/format.ts';
import { label, plainWord } from '../parts/words.ts';
import { withWord } from './map-edit.ts';

/** Values that no synonym reads, each to be told once what it means. */
export function UnmatchedWords(props: {
  readonly unmatched: readonly UnmatchedValue[];
  readonly map: ColumnMap;
  readonly onMap: (map: ColumnMap) => void;
}) {
  const choose = ({ column, value }: UnmatchedValue, chosen: string) => {
    if (chosen === '') return;
    props.onMap(withWord(props.map, column, value, chosen === noRecord ? null : chosen));
  };
  return (
    <Show when={props.unmatched.length > 0}>
      <section class="unmatched" aria-label="Values not understood">
        <h4>Values not understood</h4>
        <p class="soft">
          Say once what each means; it is kept for files with the same headings. What you leave open
          is taken as no record.
        </p>
        <ul>
          <For each={props.unmatched}>
            {(one) => (
              <li>
                <span>
                  {label(one.column)} <b>“{one.value}”</b>{' '}
                  <span class="soft">in {counted(one.rows, 'row')}</span>
                </span>
                <select
                  aria-label={`Meaning of ${one.value}`}
                  onChange={(event) => choose(one, event.currentTarget.value)}
                >
                  <option value="">no record (not told)</option>
                  <For each={wordsOf(one.column)}>
                    {(word) => <option value={word}>{plainWord(word)}</option>}
                  </For>
                  <option value={noRecord}>no record</option>
                </select>
              </li>
            )}
          </For>
        </ul>
      </section>
    </Show>
  );
}

const noRecord = '(no record)';
