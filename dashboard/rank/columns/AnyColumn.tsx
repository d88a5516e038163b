import { createSignal, For, Show } from 'solid-js';
import { label } from '../../parts/words.ts';
import { FilterForm } from './ColumnFilter.tsx';
import { plainColumns } from './plain-columns.ts';

const filterable = [...plainColumns.values()].filter(({ filters }) => filters);

/** A filter on any column, also on those that are not shown. */
export function AnyColumn() {
  const [column, setColumn] = createSignal('index');
  return (
    <div class="any-column-body fold-sheet">
      <label class="any-column-pick">
        Column
        <select value={column()} onChange={(event) => setColumn(event.currentTarget.value)}>
          <For each={filterable}>{({ name }) => <option value={name}>{label(name)}</option>}</For>
        </select>
      </label>
      <Show when={column()} keyed>
        {(name) => <FilterForm column={name} />}
      </Show>
    </div>
  );
}
