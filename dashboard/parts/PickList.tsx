import { For, Show } from 'solid-js';
import type { Counted } from '../../analysis/session-types.ts';
import { Fold } from './Fold.tsx';
import { digits, noRecord } from './format.ts';
import { plainWord } from './words.ts';
import './pick-list.css';

/** A folded list of values with their counts; any number may be ticked. */
export function PickList(props: {
  readonly title: string;
  readonly options: readonly Counted[];
  readonly chosen: readonly (string | null)[];
  readonly onToggle: (value: string | null) => void;
}) {
  return (
    <Fold
      class="pick-list"
      summary={
        <>
          {props.title}
          <Show when={props.chosen.length > 0}>: {props.chosen.length}</Show>
        </>
      }
    >
      <ul class="fold-sheet">
        <For each={props.options}>
          {(option) => (
            <li>
              <label>
                <input
                  type="checkbox"
                  checked={props.chosen.includes(option.value)}
                  onChange={() => props.onToggle(option.value)}
                />
                <span>{option.value === null ? noRecord : plainWord(option.value)}</span>
                <span class="count">{digits(option.n, 0)}</span>
              </label>
            </li>
          )}
        </For>
      </ul>
    </Fold>
  );
}
