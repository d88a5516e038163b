import { createSignal, For, onCleanup, Show } from 'solid-js';
import { defaultSettings, type SettingsChanges, type UnitCosts } from '../../analysis/settings.ts';
import { save } from '../parts/save.ts';
import { useDesk } from '../state/desk.ts';
import { Budget } from './Budget.tsx';
import {
  changesOfText,
  type EditionEntry,
  effectWords,
  priorTables,
  settingGroups,
  troubleOf,
  withConstant,
  withEditions,
  withWeight,
} from './draft.ts';
import { Editions } from './Editions.tsx';
import { Prior } from './Prior.tsx';
import './settings.css';

/** Milliseconds without a further change after which the ranking is made anew. */
const pause = 300;

/** Everything that is judgement and yours to change, with its source, and what a change does to the ranking. */
export function Settings() {
  const { session } = useDesk();
  const [draft, setDraft] = createSignal<SettingsChanges>(session.changes());
  const [trouble, setTrouble] = createSignal<string | null>(null);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const rescore = () => {
    timer = undefined;
    void session.rescore(draft());
  };
  // A change still waiting when the view is left is not lost.
  onCleanup(() => {
    if (timer === undefined) return;
    clearTimeout(timer);
    rescore();
  });
  const change = (changes: SettingsChanges) => {
    setDraft(changes);
    setTrouble(troubleOf(changes));
    clearTimeout(timer);
    timer = trouble() === null ? setTimeout(rescore, pause) : undefined;
  };
  const read = async (file: File | undefined) => {
    if (!file) return;
    try {
      change(changesOfText(await file.text()));
    } catch (cause) {
      setTrouble(`${file.name}: ${cause instanceof Error ? cause.message : cause}`);
    }
  };
  return (
    <section class="sheet-of-text settings" aria-label="Settings">
      <h2>Settings</h2>
      <p class="lead">
        What is judgement here is yours to change. The ranking follows at once; every export carries
        the settings it was made with. They are kept until this page is closed: save them to a file
        to keep them longer.
      </p>
      <div class="settings-bar">
        <p class="effect" aria-live="polite">
          <Show when={trouble() === null} fallback={<b role="alert">{trouble()}</b>}>
            <Show when={session.effect()} fallback="As shipped: nothing was changed yet.">
              {(effect) => <b>{effectWords(effect())}</b>}
            </Show>
          </Show>
        </p>
        <button
          type="button"
          class="plain-button"
          onClick={() =>
            save(
              'rainledger-settings.json',
              `${JSON.stringify(draft(), null, 2)}\n`,
              'application/json',
            )
          }
        >
          Save settings to a file
        </button>
        <label class="plain-button settings-file">
          Read settings from a file
          <input
            type="file"
            accept=".json,application/json"
            onChange={(event) => void read(event.currentTarget.files?.[0])}
          />
        </label>
        <button type="button" class="plain-button" onClick={() => change({})}>
          Reset all
        </button>
      </div>
      <For each={settingGroups}>
        {({ group, rows }) => (
          <section>
            <h3>{group}</h3>
            <For each={rows}>
              {(row) => (
                <Constant
                  row={row}
                  value={draft().constants?.[row.name!]}
                  onValue={(value) => change(withConstant(draft(), row.name!, value))}
                />
              )}
            </For>
          </section>
        )}
      </For>
      <h3>Editions in force</h3>
      <Editions
        entries={(draft().editions ?? []) as readonly EditionEntry[]}
        onEntries={(entries) => change(withEditions(draft(), entries))}
      />
      <h3>Unit costs</h3>
      <Budget
        costs={(draft().unit_costs ?? null) as UnitCosts | null}
        onCosts={(costs) => change({ ...draft(), unit_costs: costs })}
      />
      <h3>Priors: what a blank record may be</h3>
      <For each={priorTables}>
        {(table) => (
          <Prior
            table={table}
            changes={draft()}
            onWeight={(row, weight) => change(withWeight(draft(), table.id, row, weight))}
          />
        )}
      </For>
    </section>
  );
}

function Constant(props: {
  readonly row: Readonly<Record<string, string>>;
  readonly value: unknown;
  readonly onValue: (value: number) => void;
}) {
  const name = () => props.row.name ?? '';
  const shipped = () => defaultSettings.constants[name()];
  const changed = () => props.value !== undefined;
  return (
    <div class="setting" data-changed={changed() || undefined}>
      <label>
        <span>{props.row.meaning}</span>
        <input
          type="number"
          step="any"
          value={String(props.value ?? shipped())}
          onChange={(event) => props.onValue(event.currentTarget.valueAsNumber)}
        />
        <span class="soft">{props.row.unit === '1' ? '' : props.row.unit}</span>
      </label>
      <p class="soft">
        {props.row.source}
        <Show when={changed()}>
          {' '}
          <button type="button" class="plain-button" onClick={() => props.onValue(shipped() ?? 0)}>
            back to {shipped()}
          </button>
        </Show>
      </p>
    </div>
  );
}
