import { createUniqueId, For, Index, Show } from 'solid-js';
import type { ReferenceTable } from '../../analysis/reference.ts';
import type { SettingsChanges } from '../../analysis/settings.ts';
import { digits } from '../parts/format.ts';
import { label } from '../parts/words.ts';
import { FieldTrouble } from './FieldTrouble.tsx';
import { NumberField } from './NumberField.tsx';
import { cellWords, keysOf, priorRows, sharesOf } from './priors.ts';

/** One prior: what a blank may be, how much each value weighs, and what share that comes to. */
export function Prior(props: {
  readonly table: ReferenceTable;
  readonly changes: SettingsChanges;
  /** Why the weight of a row was not taken. */
  readonly troubleAt: (row: number) => string | null;
  readonly onWeight: (row: number, weight: number) => void;
  readonly onReset: () => void;
}) {
  const id = createUniqueId();
  const wordsAt = (row: number) => `${id}-${row}`;
  const keys = () => keysOf(props.table.rows);
  const rows = () => priorRows(props.changes, props.table.id);
  const shares = () => sharesOf(rows());
  const changed = () => props.changes.priors?.[props.table.id] !== undefined;
  const share = (i: number) => {
    const value = shares()[i] ?? Number.NaN;
    return Number.isNaN(value) ? '–' : `${digits(value * 100, 0)} %`;
  };
  const named = (i: number) =>
    keys()
      .map((key) => cellWords(key, rows()[i]?.[key]))
      .join(', ');
  return (
    <details class="prior" data-changed={changed() || undefined}>
      <summary>
        {props.table.title}{' '}
        <span class="soft">
          {props.table.rows.length} rows, {changed() ? 'yours' : 'judgement'}
        </span>
      </summary>
      <Show when={changed()}>
        <button type="button" class="plain-button" onClick={() => props.onReset()}>
          back to the weights that ship
        </button>
      </Show>
      <div class="prior-scroll">
        <table>
          <thead>
            <tr>
              <For each={keys()}>{(key) => <th scope="col">{label(key)}</th>}</For>
              <th scope="col">Weight, 0–1000</th>
              <th scope="col">Share</th>
              <th scope="col">Ships as</th>
            </tr>
          </thead>
          <tbody>
            <Index each={rows()}>
              {(row, i) => (
                <tr>
                  <For each={keys()}>{(key) => <td>{cellWords(key, row()[key])}</td>}</For>
                  <td>
                    <NumberField
                      step="1"
                      max={1000}
                      name={`Weight of ${named(i)}`}
                      value={Number(row().weight)}
                      troubled={props.troubleAt(i) === null ? null : wordsAt(i)}
                      onValue={(weight) => props.onWeight(i, weight)}
                    />
                    <FieldTrouble id={wordsAt(i)} message={props.troubleAt(i)} />
                  </td>
                  <td class="right">{share(i)}</td>
                  <td class="right soft">{props.table.rows[i]?.weight}</td>
                </tr>
              )}
            </Index>
          </tbody>
        </table>
      </div>
    </details>
  );
}
