import { createSignal, For, Show } from 'solid-js';
import type { Value } from '../parts/format.ts';
import { label, plainWord } from '../parts/words.ts';
import { useDesk } from '../state/desk.ts';
import type { LoggedFinding } from '../state/survey.ts';
import { extentWords, foundWords, meterWords } from './entry-words.ts';
import type { Entry } from './register.ts';

const words = (value: Value): string => (value ? plainWord(`${value}`) : '');

/** One finding. What was struck out stays readable, struck through. */
export function EntryRow(props: {
  readonly entry: Entry;
  readonly onAmend: (finding: LoggedFinding) => void;
}) {
  const { state } = useDesk();
  const cell = (column: string) => props.entry.cells[column];
  const extent = () => extentWords(props.entry.cells, state.units);
  return (
    <tr data-standing={props.entry.standing}>
      <th scope="row">
        {cell('building_id')}
        <span class="line">{cell('wall_id')}</span>
      </th>
      <td>
        <Show when={props.entry.standing === 'on record'} fallback={<b>{props.entry.standing}</b>}>
          {props.entry.belongs.says}
        </Show>
        <Show when={props.entry.reason}>{(reason) => <span class="line">{reason()}</span>}</Show>
      </td>
      <td>
        {cell('observed_on') || 'no date'}
        <span class="line">{words(cell('method'))}</span>
        <span class="line">{cell('observer')}</span>
      </td>
      <td>
        <b>{foundWords(props.entry.cells)}</b>
        <span class="line">{extent()}</span>
      </td>
      <td>{meterWords(props.entry.cells)}</td>
      <td>{words(cell('location'))}</td>
      <td class="free">
        {cell('note')}
        <span class="line">{cell('photo')}</span>
      </td>
      <td>
        {props.entry.from}
        <Show when={props.entry.logged}>
          {(logged) => (
            <>
              <Actions logged={logged()} onAmend={props.onAmend} />
              <History logged={logged()} />
            </>
          )}
        </Show>
      </td>
    </tr>
  );
}

/** Amending and striking out. A strike is asked twice: it stays. */
function Actions(props: {
  readonly logged: LoggedFinding;
  readonly onAmend: (finding: LoggedFinding) => void;
}) {
  const { survey } = useDesk();
  const [sure, setSure] = createSignal(false);
  const button = (text: string, act: () => void) => (
    <button
      type="button"
      class="plain-button"
      aria-label={`${text}: ${props.logged.id}`}
      onClick={act}
    >
      {text}
    </button>
  );
  return (
    <Show
      when={props.logged.struck === null}
      fallback={<span class="line">struck out {day(props.logged.struck)}</span>}
    >
      <span class="line entry-actions">
        <Show
          when={sure()}
          fallback={
            <>
              {button('amend', () => props.onAmend(props.logged))}{' '}
              {button('strike out', () => setSure(true))}
            </>
          }
        >
          Strike it out for good? {button('yes, strike out', () => survey.strike(props.logged.id))}{' '}
          {button('keep', () => setSure(false))}
        </Show>
      </span>
    </Show>
  );
}

const day = (iso: string | null): string => (iso ?? '').slice(0, 16).replace('T', ' ');

/** What a finding said before it was amended, oldest first. */
function History(props: { readonly logged: LoggedFinding }) {
  return (
    <Show when={props.logged.history.length > 0}>
      <details class="entry-history">
        <summary>earlier wordings: {props.logged.history.length}</summary>
        <ol>
          <For each={props.logged.history}>
            {({ until, cells }) => (
              <li>
                until {day(until)}:{' '}
                {Object.entries(cells)
                  .map(([column, text]) => `${label(column)} ${plainWord(text)}`)
                  .join('; ')}
              </li>
            )}
          </For>
        </ol>
      </details>
    </Show>
  );
}
