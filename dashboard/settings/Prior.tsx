import { For } from 'solid-js';
import type { ReferenceTable } from '../../analysis/reference.ts';
import type { SettingsChanges } from '../../analysis/settings.ts';
import { plainWord } from '../parts/words.ts';
import { priorRows } from './draft.ts';

/** One prior: what a blank may be, and how much each value weighs. */
export function Prior(props: {
  readonly table: ReferenceTable;
  readonly changes: SettingsChanges;
  readonly onWeight: (row: number, weight: number) => void;
}) {
  const keys = () =>
    Object.keys(props.table.rows[0] ?? {}).filter((name) => name !== 'weight' && name !== 'source');
  const rows = () => priorRows(props.changes, props.table.id);
  return (
    <details class="prior">
      <summary>
        {props.table.title} <span class="soft">{props.table.rows.length} rows, judgement</span>
      </summary>
      <table>
        <thead>
          <tr>
            <For each={keys()}>{(key) => <th scope="col">{plainWord(key)}</th>}</For>
            <th scope="col">weight</th>
          </tr>
        </thead>
        <tbody>
          <For each={rows()}>
            {(row, i) => (
              <tr>
                <For each={keys()}>{(key) => <td>{plainWord(row[key] ?? '')}</td>}</For>
                <td>
                  <input
                    type="number"
                    min="0"
                    max="1000"
                    step="1"
                    aria-label={`Weight of ${keys()
                      .map((key) => row[key])
                      .join(', ')}`}
                    value={row.weight}
                    onChange={(event) => props.onWeight(i(), event.currentTarget.valueAsNumber)}
                  />
                </td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </details>
  );
}
