import { For, Match, Show, Switch } from 'solid-js';
import { constantUnder } from '../../analysis/constants.ts';
import type { UnitCosts } from '../../analysis/settings.ts';
import { save } from '../parts/save.ts';
import { TermLine } from '../parts/TermLine.tsx';
import { useDesk } from '../state/desk.ts';
import { Budget } from './Budget.tsx';
import { changedWords } from './changed-words.ts';
import { pruned, withConstant } from './changes.ts';
import { type EditionEntry, effectWords, settingGroups, withEditions } from './draft.ts';
import { Editions } from './Editions.tsx';
import { createDraft, type Draft } from './live-draft.ts';
import { Prior } from './Prior.tsx';
import { priorTables, withoutPrior, withWeight } from './priors.ts';
import { SettingRow } from './SettingRow.tsx';
import { weightField } from './taken.ts';
import './settings.css';

/** What the settings of a group take for granted. */
const termsOf: Readonly<Record<string, readonly string[]>> = {
  Weights: ['wetting', 'exponent', 'term_w', 'term_d', 'term_s'],
  Tiers: ['tier', 'index'],
  Rain: ['rain', 'practice', 'grid', 'station'],
  Drainage: ['drainage_need', 'drainage_state', 'practice'],
  'Sheathing and age': ['sheathing', 'term_s'],
  Rules: ['practice', 'edition'],
};

/** Everything that is judgement and yours to change, with its source, and what a change does to the ranking. */
export function Settings() {
  const { session } = useDesk();
  const own = createDraft(session);
  const { draft, change, troubleAt } = own;
  const lag = () => constantUnder(draft(), 'edition_lag_yr');
  return (
    <section class="sheet-of-text settings" aria-label="Settings">
      <h2>Settings</h2>
      <p class="lead">
        What is judgement here is yours to change, in the metric units of the method. The ranking
        follows at once; every export carries the settings it was made with. They are kept with your
        workspace; over the invented example they last until the page is closed.
      </p>
      <Bar own={own} />
      <For each={settingGroups}>
        {({ group, rows }) => (
          <section>
            <h3>{group}</h3>
            <Show when={termsOf[group]}>{(terms) => <TermLine of={terms()} />}</Show>
            <For each={rows}>
              {(row) => (
                <SettingRow
                  row={row}
                  value={draft().constants?.[row.name!]}
                  trouble={troubleAt(row.name!)}
                  onValue={(value) => change(withConstant(draft(), row.name!, value))}
                />
              )}
            </For>
          </section>
        )}
      </For>
      <h3>Editions in force</h3>
      <TermLine of={['edition', 'code_then', 'code_now']} />
      <Editions
        entries={(draft().editions ?? []) as readonly EditionEntry[]}
        lag={lag()}
        trouble={troubleAt('editions')}
        onEntries={(entries) => change(withEditions(draft(), entries))}
      />
      <h3>Unit costs</h3>
      <TermLine of={['unit_cost', 'tier']} />
      <Budget
        costs={(draft().unit_costs ?? null) as UnitCosts | null}
        trouble={troubleAt('unit_costs')}
        onCosts={(costs) => change(pruned({ ...draft(), unit_costs: costs }))}
      />
      <h3>Priors: what a blank record may be</h3>
      <TermLine of={['prior', 'sheathing', 'cladding', 'low_high']} />
      <For each={priorTables}>
        {(table) => (
          <Prior
            table={table}
            changes={draft()}
            troubleAt={(row) => troubleAt(weightField(table.id, row))}
            onWeight={(row, weight) => change(withWeight(draft(), table.id, row, weight))}
            onReset={() => change(withoutPrior(draft(), table.id))}
          />
        )}
      </For>
    </section>
  );
}

/** What the settings do, and the ways in and out of them; it stays in sight. */
function Bar(props: { readonly own: Draft }) {
  const saveFile = () =>
    save(
      'rainledger-settings.json',
      `${JSON.stringify(props.own.taken(), null, 2)}\n`,
      'application/json',
    );
  return (
    <div class="settings-bar">
      <p class="effect" aria-live="polite">
        <State own={props.own} />
      </p>
      <button type="button" class="plain-button" onClick={saveFile}>
        Save settings to a file
      </button>
      <label class="plain-button settings-file">
        Read settings from a file
        <input
          type="file"
          accept=".json,application/json"
          onChange={(event) => {
            const input = event.currentTarget;
            void props.own.read(input.files?.[0]);
            // The same file, mended, can be read again.
            input.value = '';
          }}
        />
      </label>
      <button type="button" class="plain-button" onClick={() => props.own.change({})}>
        Reset all
      </button>
    </div>
  );
}

function State(props: { readonly own: Draft }) {
  const { session } = useDesk();
  const words = () => changedWords(session.changes());
  return (
    <Switch fallback="As shipped: nothing was changed yet.">
      <Match when={props.own.fileTrouble()}>{(message) => <b role="alert">{message()}</b>}</Match>
      <Match when={props.own.troubles().size}>
        {(n) => (
          <b>
            {n() === 1
              ? '1 field was not taken: see beside it.'
              : `${n()} fields were not taken: see beside them.`}{' '}
            Everything else is in effect.
          </b>
        )}
      </Match>
      <Match when={session.rescoring()}>Scoring again …</Match>
      <Match when={session.effect()}>{(effect) => <b>{effectWords(effect())}</b>}</Match>
      <Match when={words()}>Changed: {words()}.</Match>
    </Switch>
  );
}
