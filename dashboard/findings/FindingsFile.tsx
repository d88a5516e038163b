import { For, Show } from 'solid-js';
import { save } from '../parts/save.ts';
import { FileOutcome } from '../sources/FileOutcome.tsx';
import { useDesk } from '../state/desk.ts';
import { withFile, withoutFile } from '../state/held.ts';
import { loggedName } from '../state/survey.ts';
import { FindingRemarks } from './FindingRemarks.tsx';
import { blankFindings, findingHeadings } from './finding-csv.ts';
import { wordsOf } from './vocabulary.ts';
import '../sources/sources.css';

const listed = (words: readonly string[]): string => words.join(', ');

/** Findings from a file, every row of it accounted for. */
export function FindingsFile() {
  const { held, hold, survey } = useDesk();
  const file = () => held().files.find(({ role }) => role === 'findings')?.file ?? null;
  const report = () => survey.findings()?.reports.find((one) => one.file === file()?.name);
  const reading = () => file() !== null && !report() && survey.trouble() === null;
  const take = (files: FileList | null) => {
    const [chosen] = files ?? [];
    if (chosen) hold((h) => withFile(h, { file: chosen, role: 'findings', reading: {} }));
  };
  return (
    <section class="findings-file" aria-label="Findings from a file">
      <p>
        <label>
          {file() ? 'Put another file of findings in its place: ' : 'Import a file of findings: '}
          <input
            type="file"
            accept=".csv,.tsv,.txt,.xlsx,.json,.geojson,.parquet"
            onChange={(event) => {
              take(event.currentTarget.files);
              // The same file, mended, can be read again.
              event.currentTarget.value = '';
            }}
          />
        </label>
      </p>
      <FileForm />
      <Show when={reading()}>
        <p class="panel-state" role="status">
          Reading {file()?.name} …
        </p>
      </Show>
      <Show when={survey.trouble()}>
        {(message) => (
          <div class="refusal" role="alert">
            <h4>The findings were not read</h4>
            <p>{message()}</p>
            <p>Findings that were on record before still are, and so is every estimate.</p>
          </div>
        )}
      </Show>
      <Show when={file()}>
        {(one) => (
          <button
            type="button"
            class="plain-button"
            onClick={() => hold((h) => withoutFile(h, one().name))}
          >
            take {one().name} away
          </button>
        )}
      </Show>
      <For each={survey.findings()?.reports ?? []}>
        {(one) => (
          <FileOutcome
            file={one.file === loggedName ? { ...one, file: 'Logged in this page' } : one}
          />
        )}
      </For>
      <FindingRemarks remarks={survey.findings()?.remarks ?? []} />
    </section>
  );
}

/** What a file of findings has to look like. */
function FileForm() {
  return (
    <details class="file-form">
      <summary>What such a file holds</summary>
      <p>
        One row a finding, headings as here, in any order: {listed(findingHeadings)}. building_id,
        wall_id and one of condition and not_accessible are needed. A finding that names its plan
        under plan_id, and a wall which that plan selected, enters the estimates; every other one is
        kept and left out of them.
      </p>
      <p>
        Condition: {listed(wordsOf('condition'))}. Method: {listed(wordsOf('method'))}. Reading
        scale: {listed(wordsOf('reading_scale'))}. Location: {listed(wordsOf('location'))}.
        sheathing_seen is yes only with an opening. extent_m2 is in m². One file at a time: another
        takes its place.
      </p>
      <button
        type="button"
        class="plain-button"
        onClick={() => save('findings.csv', blankFindings, 'text/csv')}
      >
        Save a blank file with these headings
      </button>
    </details>
  );
}
