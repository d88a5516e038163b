import { For, Show } from 'solid-js';
import { figureOf, joined } from '../parts/format.ts';
import { sortBy } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { heading, type TableColumn, tableColumns } from './reason-columns.ts';
import { StripLegend } from './Strip.tsx';

/** The headings: each sorts by its column, reverses on the second click, and goes back to the ranking on the third. */
export function HeadingRow(props: { readonly wettingMax: number }) {
  const { state } = useDesk();
  // The lane is narrow and *a year* stands in the heading of the column.
  const longest = () =>
    joined(figureOf(props.wettingMax, 'wetting', state.units)).replace(' yr', '');
  return (
    <thead class="heading-group">
      <tr class="row heading-row" aria-rowindex={1}>
        <For each={tableColumns}>
          {(column, i) => (
            <th
              scope="col"
              class={`cell at-${column.area}`}
              aria-colindex={i() + 1}
              aria-sort={sorted(column, state.sort)}
            >
              <Show
                when={column.area === 'strip'}
                fallback={column.sort ? <SortButton column={column} /> : column.label}
              >
                <span class="unseen">{column.label}</span>
                <StripLegend wettingMax={longest()} />
              </Show>
            </th>
          )}
        </For>
      </tr>
    </thead>
  );
}

function SortButton(props: { readonly column: TableColumn }) {
  const { state, apply } = useDesk();
  const direction = () => sorted(props.column, state.sort);
  return (
    <button
      type="button"
      class="sort"
      data-sorted={direction()}
      onClick={() => apply(sortBy(props.column.sort ?? '', props.column.descendingFirst ?? false))}
    >
      {heading(props.column, state.units)}
      <svg viewBox="0 0 8 10" aria-hidden="true">
        <path d={direction() === 'ascending' ? 'M4 1L7.500 8H.5Z' : 'M4 9L.5 2H7.500Z'} />
      </svg>
    </button>
  );
}

function sorted(
  column: TableColumn,
  sort: { readonly column: string; readonly descending: boolean } | null,
): 'ascending' | 'descending' | 'none' | undefined {
  if (!column.sort) return undefined;
  if (sort?.column !== column.sort) return 'none';
  return sort.descending ? 'descending' : 'ascending';
}
