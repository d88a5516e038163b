import { createSignal, For, Show } from 'solid-js';
import { regions } from '../../analysis/place/regions.ts';
import { referenceRows } from '../../analysis/reference.ts';
import type { EditionEntry } from './draft.ts';
import { FieldTrouble } from './FieldTrouble.tsx';

/** Editions with a year of their own: those a region may have taken into force. */
const offered = referenceRows('editions').filter(({ edition }) => edition !== 'legacy');
const names = new Map<string, string>(regions.map(({ code, name }) => [code, name]));
const earliest = 1990;
const latest = 2100;

/** Which edition a state or province had in force from which year; without an entry the method's window stands. */
export function Editions(props: {
  readonly entries: readonly EditionEntry[];
  /** Years before a wall was built within which an edition may have been in force. */
  readonly lag: number;
  readonly trouble: string | null;
  readonly onEntries: (entries: readonly EditionEntry[]) => void;
}) {
  return (
    <div class="editions">
      <p class="soft">
        Where a region is not named here, a wall may have stood under any edition of the {props.lag}{' '}
        years before it was built, and today’s answer is that of the editions marked in the Method.
        A permit may be older than the wall.
      </p>
      <FieldTrouble message={props.trouble} />
      <Show when={props.entries.length > 0}>
        <ul>
          <For each={props.entries}>
            {(entry, i) => (
              <li>
                {names.get(`${entry.region}`) ?? entry.region}: {entry.code} {entry.edition} in
                force from {entry.from_year}{' '}
                <button
                  type="button"
                  class="plain-button"
                  onClick={() => props.onEntries(props.entries.filter((_, at) => at !== i()))}
                >
                  take away
                </button>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <EditionForm onEntry={(entry) => props.onEntries([...props.entries, entry])} />
    </div>
  );
}

function EditionForm(props: { readonly onEntry: (entry: EditionEntry) => void }) {
  const [region, setRegion] = createSignal('');
  const [label, setLabel] = createSignal('');
  const [year, setYear] = createSignal(Number.NaN);
  const entry = (): EditionEntry | null => {
    const row = offered.find((edition) => edition.label === label());
    const dated = Number.isInteger(year()) && year() >= earliest && year() <= latest;
    if (!row || region() === '' || !dated) return null;
    return {
      region: region(),
      code: row.code!,
      edition: Number(row.edition),
      from_year: year(),
    };
  };
  const add = () => {
    const filled = entry();
    if (filled) props.onEntry(filled);
  };
  return (
    <p class="edition-form">
      <label>
        Region{' '}
        <select value={region()} onChange={(event) => setRegion(event.currentTarget.value)}>
          <option value="">choose</option>
          <For each={regions}>{({ code, name }) => <option value={code}>{name}</option>}</For>
        </select>
      </label>
      <label>
        Edition{' '}
        <select value={label()} onChange={(event) => setLabel(event.currentTarget.value)}>
          <option value="">choose</option>
          <For each={offered}>{(edition) => <option>{edition.label}</option>}</For>
        </select>
      </label>
      <label>
        In force from{' '}
        <input
          type="number"
          min={earliest}
          max={latest}
          placeholder="year"
          onInput={(event) => setYear(event.currentTarget.valueAsNumber)}
        />
      </label>
      <button type="button" class="push-button" disabled={entry() === null} onClick={add}>
        Add
      </button>
    </p>
  );
}
