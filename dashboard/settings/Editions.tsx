import { createSignal, For } from 'solid-js';
import { regions } from '../../analysis/place/regions.ts';
import { referenceRows } from '../../analysis/reference.ts';
import type { EditionEntry } from './draft.ts';

/** Editions with a year of their own: those a region may have taken into force. */
const offered = referenceRows('editions').filter(({ edition }) => edition !== 'legacy');

/** Which edition a state or province had in force from which year; without an entry the method's window stands. */
export function Editions(props: {
  readonly entries: readonly EditionEntry[];
  readonly onEntries: (entries: readonly EditionEntry[]) => void;
}) {
  const [region, setRegion] = createSignal('WA');
  const [edition, setEdition] = createSignal('IBC 2018');
  const [year, setYear] = createSignal(2021);
  const add = () => {
    const row = offered.find(({ label }) => label === edition())!;
    const entry = {
      region: region(),
      code: row.code!,
      edition: Number(row.edition),
      from_year: year(),
    };
    props.onEntries([...props.entries, entry]);
  };
  return (
    <div class="editions">
      <p class="soft">
        Where a region is not named here, a wall may have stood under any edition of the twelve
        years before it was built, and today’s answer is that of the editions marked in the Method.
      </p>
      <ul>
        <For each={props.entries}>
          {(entry, i) => (
            <li>
              {entry.region}: {entry.code} {entry.edition} in force from {entry.from_year}{' '}
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
      <p class="edition-form">
        <label>
          Region{' '}
          <select value={region()} onChange={(event) => setRegion(event.currentTarget.value)}>
            <For each={regions}>{({ code, name }) => <option value={code}>{name}</option>}</For>
          </select>
        </label>
        <label>
          Edition{' '}
          <select value={edition()} onChange={(event) => setEdition(event.currentTarget.value)}>
            <For each={offered}>{({ label }) => <option value={label}>{label}</option>}</For>
          </select>
        </label>
        <label>
          In force from{' '}
          <input
            type="number"
            min="1990"
            max="2100"
            value={year()}
            onChange={(event) => setYear(event.currentTarget.valueAsNumber)}
          />
        </label>
        <button type="button" class="push-button" onClick={add}>
          Add
        </button>
      </p>
    </div>
  );
}
