import { createMemo, For } from 'solid-js';
import { plainWord } from '../parts/words.ts';

type Rows = readonly Readonly<Record<string, string>>[];

/** A table of data/ as it is stored: columns of numbers to the right, columns of sentences wide. */
export function ReferenceRows(props: { readonly title: string; readonly rows: Rows }) {
  const columns = createMemo(() =>
    Object.keys(props.rows[0] ?? {}).map((name) => ({ name, shape: shapeOf(props.rows, name) })),
  );
  return (
    <section class="reference-scroll" tabindex={0} aria-label={props.title}>
      <table>
        <thead>
          <tr>
            <For each={columns()}>
              {(column) => (
                <th scope="col" class={column.shape}>
                  {plainWord(column.name)}
                </th>
              )}
            </For>
          </tr>
        </thead>
        <tbody>
          <For each={props.rows}>
            {(row) => (
              <tr>
                <For each={columns()}>
                  {(column) => <td class={column.shape}>{row[column.name]}</td>}
                </For>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </section>
  );
}

/** Longest text, in characters, that stands on one line. */
const shortText = 26;

function shapeOf(rows: Rows, name: string): 'is-number' | 'is-short' | 'is-text' {
  const cells = rows.map((row) => row[name] ?? '').filter((text) => text !== '');
  const numeric = cells.every((text) => Number.isFinite(Number(text)));
  if (numeric && cells.length > 0 && name !== 'unit') return 'is-number';
  return cells.every((text) => text.length <= shortText) ? 'is-short' : 'is-text';
}
