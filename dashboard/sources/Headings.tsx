import { For, Show } from 'solid-js';
import type { Role } from '../../analysis/session-types.ts';
import { save } from '../parts/save.ts';
import { blankFile, headingsOf } from './headings.ts';

const tables: readonly { role: Role; title: string }[] = [
  { role: 'buildings', title: 'Buildings' },
  { role: 'walls', title: 'Walls' },
  { role: 'rain', title: 'Rain grid' },
  { role: 'stations', title: 'Rain stations' },
  { role: 'weather', title: 'Weather record' },
];

const unitWords = (unit: string): string =>
  unit === 'its heading says' ? 'In the unit that its heading says.' : `In ${unit}.`;

/** The headings the tool reads, one line each, and blank files to fill in. */
export function Headings() {
  const blank = (role: Role) => save(`${role}.csv`, blankFile(role), 'text/csv');
  return (
    <section class="headings" aria-label="Headings understood">
      <h3>Headings understood</h3>
      <p>
        Columns may stand in any order; others are kept and shown. Blank files to fill in:{' '}
        <button type="button" class="plain-button" onClick={() => blank('buildings')}>
          buildings.csv
        </button>
        ,{' '}
        <button type="button" class="plain-button" onClick={() => blank('walls')}>
          walls.csv
        </button>
        .
      </p>
      <For each={tables}>
        {(table) => (
          <details>
            <summary>
              {table.title}, {headingsOf(table.role).length} columns
            </summary>
            <dl class="heading-list">
              <For each={headingsOf(table.role)}>
                {(heading) => (
                  <div>
                    <dt>{heading.column}</dt>
                    <dd>
                      <Show when={heading.needed}>
                        <b>Needed.</b>{' '}
                      </Show>
                      <Show when={heading.unit}>{unitWords(heading.unit)} </Show>
                      {heading.meaning}
                    </dd>
                  </div>
                )}
              </For>
            </dl>
          </details>
        )}
      </For>
    </section>
  );
}
