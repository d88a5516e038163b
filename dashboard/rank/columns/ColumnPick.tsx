import { For, Show } from 'solid-js';
import { Fold } from '../../parts/Fold.tsx';
import { digits } from '../../parts/format.ts';
import { patch } from '../../state/changes.ts';
import { useDesk } from '../../state/desk.ts';
import {
  chosenColumns,
  headingOf,
  mostPinned,
  plainColumns,
  stayingColumns,
} from './plain-columns.ts';

/** Which columns the plain rows show, and which of them stay while the others scroll. */
export function ColumnPick(props: {
  /** Of the table as it is laid out, px. */
  readonly width: number;
}) {
  const { state, apply } = useDesk();
  const chosen = () => {
    const { pinned, free } = chosenColumns(state.columns, state.pinned);
    return {
      all: [...pinned, ...free].map(({ name }) => name),
      pinned: pinned.map(({ name }) => name),
      staying: stayingColumns(pinned, props.width).map(({ name }) => name),
    };
  };
  const withoutRoom = (name: string) =>
    chosen().pinned.includes(name) && !chosen().staying.includes(name);
  // In the order of the list, whatever the order of ticking: a column is then found where the list has it.
  const inOrder = (names: ReadonlySet<string>) =>
    [...plainColumns.keys()].filter((n) => names.has(n));
  const toggled = (names: readonly string[], name: string) => {
    const next = new Set(names);
    if (!next.delete(name)) next.add(name);
    return inOrder(next);
  };
  const show = (name: string) => {
    const columns = toggled(chosen().all, name);
    apply(patch({ columns, pinned: chosen().pinned.filter((one) => columns.includes(one)) }));
  };
  const pin = (name: string) => {
    const pinned = toggled(chosen().pinned, name);
    const columns = inOrder(new Set([...chosen().all, name]));
    apply(patch({ columns, pinned }));
  };
  return (
    <Fold class="pick-list column-pick" summary={<>Columns: {chosen().all.length}</>}>
      <ul class="fold-sheet">
        <li class="column-pick-head" aria-hidden="true">
          <span>shown</span>
          <span>stays in place</span>
        </li>
        <For each={[...plainColumns.keys()]}>
          {(name) => (
            <li class="column-pick-line">
              <label>
                <input
                  type="checkbox"
                  checked={chosen().all.includes(name)}
                  disabled={chosen().all.length === 1 && chosen().all[0] === name}
                  onChange={() => show(name)}
                />
                <span>
                  {headingOf(name, state.units)}
                  <Show when={withoutRoom(name)}>
                    <span class="soft"> scrolls: no room to stay</span>
                  </Show>
                </span>
              </label>
              <input
                type="checkbox"
                aria-label={`${headingOf(name, state.units)} stays in place`}
                checked={chosen().pinned.includes(name)}
                onChange={() => pin(name)}
              />
            </li>
          )}
        </For>
        <li class="column-pick-said soft">
          Columns that stay take at most {digits(100 * mostPinned, 0)} % of the table’s width, in
          this order; those without room there scroll with the others.
        </li>
        <li class="column-pick-line">
          <button
            type="button"
            class="plain-button"
            onClick={() => apply(patch({ columns: [], pinned: [] }))}
          >
            As first shown
          </button>
        </li>
      </ul>
    </Fold>
  );
}
