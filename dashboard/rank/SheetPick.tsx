import { For, Show } from 'solid-js';
import { digits } from '../parts/format.ts';
import { rowsOn, rowsPerSheet, sheetCount } from './sheet-of-rows.ts';

/** Which part of a very long ranking is shown; nothing for one that is a single sheet. */
export function SheetPick(props: {
  readonly rows: number;
  readonly sheet: number;
  readonly onPick: (sheet: number) => void;
}) {
  const first = (sheet: number) => digits(sheet * rowsPerSheet + 1, 0);
  const last = (sheet: number) => digits(sheet * rowsPerSheet + rowsOn(sheet, props.rows), 0);
  return (
    <Show when={sheetCount(props.rows) > 1}>
      <label class="sheet-pick">
        Rows{' '}
        <select
          value={String(props.sheet)}
          onChange={(event) => props.onPick(Number(event.currentTarget.value))}
        >
          <For each={Array.from({ length: sheetCount(props.rows) }, (_, i) => i)}>
            {(sheet) => (
              <option value={String(sheet)}>
                {first(sheet)} to {last(sheet)}
              </option>
            )}
          </For>
        </select>
      </label>
    </Show>
  );
}
