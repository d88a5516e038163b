import { createSignal, For, Match, Show, Switch } from 'solid-js';
import { findingsAbout } from '../../analysis/survey/inference-file.ts';
import { counted } from '../parts/format.ts';
import { save } from '../parts/save.ts';
import { useDesk } from '../state/desk.ts';
import { type LoggedFinding, loggedName } from '../state/survey.ts';
import { EntryRow } from './EntryRow.tsx';
import { findingsCsv } from './finding-csv.ts';
import type { Entry } from './register.ts';

/** Findings shown at a time. */
const window = 200;

const headings = ['Wall', 'Belongs to', 'Looked at', 'Found', 'Meter', 'Where', 'Note', 'From'];

/** Every finding, with the plan it belongs to. Walls whose openings disagree are named above it. */
export function Register(props: {
  readonly entries: readonly Entry[];
  readonly onAmend: (finding: LoggedFinding) => void;
}) {
  const { survey } = useDesk();
  const [limit, setLimit] = createSignal(window);
  return (
    <section class="register" aria-labelledby="register-title">
      <h3 id="register-title">Register of findings</h3>
      <For each={survey.findings()?.says ?? []}>{(says) => <p class="disagrees">{says}</p>}</For>
      <Switch
        fallback={
          <p class="panel-state">
            Nothing is on record yet. Log the first finding above, or import a file. A wall of which
            nothing is on record has not been looked at, whatever its place in the ranking.
          </p>
        }
      >
        <Match when={survey.findings() === null && survey.trouble() === null}>
          <p class="panel-state" role="status">
            Reading what is on record …
          </p>
        </Match>
        <Match when={props.entries.length > 0}>
          <Counts entries={props.entries} />
          <section class="findings-scroll" tabindex={0} aria-label="Findings, one a row">
            <table>
              <thead>
                <tr>
                  <For each={headings}>{(heading) => <th scope="col">{heading}</th>}</For>
                </tr>
              </thead>
              <tbody>
                <For each={props.entries.slice(0, limit())}>
                  {(entry) => <EntryRow entry={entry} onAmend={props.onAmend} />}
                </For>
              </tbody>
            </table>
          </section>
          <Show when={props.entries.length > limit()}>
            <button type="button" class="plain-button" onClick={() => setLimit((n) => n + window)}>
              Show {window} more of {counted(props.entries.length, 'finding')}
            </button>
          </Show>
        </Match>
      </Switch>
    </section>
  );
}

/** How many there are, how many of them belong to a plan, and the way out as a file. */
function Counts(props: { readonly entries: readonly Entry[] }) {
  const { session, survey } = useDesk();
  const standing = () => props.entries.filter((entry) => entry.standing === 'on record');
  const planned = () => standing().filter(({ belongs }) => belongs.planId !== null).length;
  const write = () => {
    const view = survey.findings();
    if (!view) return;
    const files = view.reports.map(({ file }) => (file === loggedName ? 'this page' : file));
    const demo = session.opened()?.report.demo ?? false;
    save('findings.csv', findingsCsv(view.rows), 'text/csv');
    save(
      'findings.csv.about.json',
      findingsAbout(files, view.rows.length, demo),
      'application/json',
    );
  };
  return (
    <p class="register-line">
      <span role="status">
        {counted(standing().length, 'finding')} on record: {planned()} of a plan,{' '}
        {standing().length - planned()} kept out of the estimates.
      </span>
      <button type="button" class="plain-button" disabled={!survey.findings()} onClick={write}>
        Save the findings on record as CSV
      </button>
    </p>
  );
}
