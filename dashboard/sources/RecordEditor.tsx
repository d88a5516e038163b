import { createResource, createSignal, For, Show } from 'solid-js';
import type { Edit, MarkedRemark, RecordView } from '../../analysis/session-types.ts';
import { label } from '../parts/words.ts';
import { useDesk } from '../state/desk.ts';

/** A row of a file as it stands, to be corrected in place; the file itself is not touched. */
export function RecordEditor(props: { readonly remark: MarkedRemark }) {
  const { session, hold } = useDesk();
  const { file, table, row, wall, column, mend } = props.remark;
  const [typed, setTyped] = createSignal<Readonly<Record<string, string>>>(mend?.cells ?? {});
  const [record] = createResource(() => session.analyst.record(file, table!, row, wall ?? null));
  const shown = (view: RecordView) =>
    view.cells.filter(
      (cell) =>
        cell.heading !== null || cell.edited || cell.column === column || cell.column in typed(),
    );
  const changed = (view: RecordView): Edit[] =>
    Object.entries(typed())
      .filter(([name, value]) => view.cells.find((cell) => cell.column === name)?.value !== value)
      .map(([name, value]) => ({
        file,
        table: table!,
        row,
        wall: wall ?? null,
        column: name,
        value,
      }));
  const submit = (event: SubmitEvent, view: RecordView) => {
    event.preventDefault();
    void session.correct(changed(view), hold);
  };
  return (
    <Show
      when={record()}
      fallback={
        <p class="soft" role="status">
          {record.loading ? 'Looking up the row …' : 'The row is not in the file any more.'}
        </p>
      }
    >
      {(view) => (
        <form class="record-editor" onSubmit={(event) => submit(event, view())}>
          <Show when={mend}>
            {(offered) => (
              <p>
                <b>{offered().says}:</b> the proposed values stand below; nothing is changed until
                you read the row again.
              </p>
            )}
          </Show>
          <div class="record-cells">
            <For each={shown(view())}>
              {(cell) => (
                <label classList={{ meant: cell.column === column }}>
                  <span>
                    {label(cell.column)}
                    <Show when={cell.heading && cell.heading !== cell.column}>
                      <span class="soft"> {cell.heading}</span>
                    </Show>
                  </span>
                  <input
                    type="text"
                    value={typed()[cell.column] ?? cell.value}
                    onInput={(event) =>
                      setTyped((before) => ({
                        ...before,
                        [cell.column]: event.currentTarget.value,
                      }))
                    }
                  />
                </label>
              )}
            </For>
          </div>
          <button
            type="submit"
            class="push-button"
            disabled={changed(view()).length === 0 || session.phase().kind === 'opening'}
          >
            Read the row again
          </button>
        </form>
      )}
    </Show>
  );
}
