import { For, Show } from 'solid-js';
import { referenceTables } from '../../analysis/reference.ts';
import { sideTables } from '../../analysis/side-reference.ts';
import { CautionList } from '../parts/Cautions.tsx';
import { TermLine } from '../parts/TermLine.tsx';
import { RainChecks } from './RainChecks.tsx';
import { ReferenceRows } from './ReferenceRows.tsx';
import { steps } from './steps.ts';
import { Weather } from './Weather.tsx';
import './method.css';

/** What the steps take for granted. */
const terms = [
  'wetting',
  'drainage_need',
  'drainage_state',
  'bond_break',
  'sheathing',
  'prior',
  'tier',
];

/** How a number comes about, in words, and every table that stands behind it with its source. */
export function Method() {
  return (
    <section class="sheet-of-text method" aria-label="Method">
      <h2>Method</h2>
      <p class="lead">
        How the index is made, and every constant, prior and rule it uses. What is judgement says
        so. Any number on the other sheets opens to show the same steps with its own values; the
        tables here hold them as they ship and as the method stores them, in metric units. What is
        yours to change stands in Settings.
      </p>
      <TermLine of={terms} />
      <ol class="steps">
        <For each={steps}>
          {(step) => (
            <li>
              <h3>{step.title}</h3>
              <p>{step.text}</p>
              <Show when={step.formula}>
                <p class="formula">{step.formula}</p>
              </Show>
              <Show when={step.source}>
                <p class="soft">{step.source}</p>
              </Show>
            </li>
          )}
        </For>
      </ol>
      <RainChecks />
      <Weather />
      <section class="method-cautions">
        <h3>Cautions</h3>
        <CautionList />
      </section>
      <h3 class="tables-title">Tables</h3>
      <For each={[...referenceTables, ...sideTables]}>
        {(table) => (
          <details class="reference">
            <summary>
              <b>{table.title}</b>{' '}
              <span class="soft">
                data/{table.file}, {table.rows.length} rows
              </span>
            </summary>
            <ReferenceRows title={table.title} rows={table.rows} />
          </details>
        )}
      </For>
    </section>
  );
}
