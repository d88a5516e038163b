import { For } from 'solid-js';
import { patch } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { sortable } from './reason-columns.ts';

/** Sorting without headings, for narrow screens. */
export function SortPick() {
  const { state, apply } = useDesk();
  const value = () =>
    state.sort ? `${state.sort.descending ? '-' : '+'}${state.sort.column}` : '';
  const choose = (text: string) =>
    apply(
      patch({ sort: text ? { column: text.slice(1), descending: text.startsWith('-') } : null }),
    );
  return (
    <label class="sort-pick">
      Sort{' '}
      <select value={value()} onChange={(event) => choose(event.currentTarget.value)}>
        <option value="">as ranked</option>
        <For each={sortable}>
          {(column) => (
            <>
              <option value={`+${column.sort}`}>{column.label}, ascending</option>
              <option value={`-${column.sort}`}>{column.label}, descending</option>
            </>
          )}
        </For>
      </select>
    </label>
  );
}
