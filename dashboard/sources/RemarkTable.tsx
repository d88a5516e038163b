import { createMemo, createSignal, For, Show } from 'solid-js';
import type { FileReport } from '../../analysis/session-types.ts';
import { Choice } from '../parts/Choice.tsx';
import { counted, digits } from '../parts/format.ts';
import { save } from '../parts/save.ts';
import { type Marked, remarksCsv } from '../parts/table-text.ts';
import { allRemarks, type Outcome, remarksMatching } from './remarks.ts';

const outcomes: readonly { value: Outcome; word: string }[] = [
  { value: 'any', word: 'all' },
  { value: 'set aside', word: 'rows set aside' },
  { value: 'taken as no record', word: 'cells taken as no record' },
];

/** Rows drawn at a time: a spoilt file may have a million remarks, and the download holds them all. */
const drawn = 200;

export function RemarkTable(props: { readonly files: readonly FileReport[] }) {
  const [outcome, setOutcome] = createSignal<Outcome>('any');
  const [words, setWords] = createSignal('');
  const [limit, setLimit] = createSignal(drawn);
  const all = createMemo(() => allRemarks(props.files));
  const found = createMemo(() => remarksMatching(all(), outcome(), words()));
  return (
    <Show
      when={all().length > 0}
      fallback={<p class="soft">No row was set aside, and every cell could be read.</p>}
    >
      <section class="remarks" aria-label="Rows set aside and cells taken as no record">
        <h3>Rows set aside, and cells taken as no record</h3>
        <div class="remark-controls">
          <Choice legend="Show" words={outcomes} value={outcome()} onChoose={setOutcome} />
          <label class="search">
            <span class="unseen">Filter these remarks</span>
            <input
              type="search"
              placeholder="Row, column, value, reason"
              value={words()}
              onInput={(event) => setWords(event.currentTarget.value)}
            />
          </label>
          <span role="status">
            {found().length === all().length
              ? counted(all().length, 'remark')
              : `${digits(found().length, 0)} of ${counted(all().length, 'remark')}`}
          </span>
          <button
            type="button"
            class="plain-button"
            onClick={() => save('set-aside.csv', remarksCsv(found()), 'text/csv')}
          >
            Download as CSV
          </button>
        </div>
        <Show when={found().length > 0} fallback={<p class="panel-state">No remark matches.</p>}>
          <Remarks remarks={found().slice(0, limit())} />
        </Show>
        <Show when={found().length > limit()}>
          <button type="button" class="plain-button" onClick={() => setLimit((n) => n + drawn)}>
            Show {drawn} more
          </button>
        </Show>
      </section>
    </Show>
  );
}

function Remarks(props: { readonly remarks: readonly Marked[] }) {
  return (
    <section class="remark-scroll" tabindex={0} aria-label="Remarks">
      <table>
        <thead>
          <tr>
            <th scope="col">File</th>
            <th scope="col" class="right">
              Row
            </th>
            <th scope="col">Column</th>
            <th scope="col">Value</th>
            <th scope="col">Outcome</th>
            <th scope="col">Reason</th>
          </tr>
        </thead>
        <tbody>
          <For each={props.remarks}>
            {(remark) => (
              <tr>
                <td>{remark.file}</td>
                <td class="right">{remark.row}</td>
                <td>{remark.column}</td>
                <td class="value">{remark.value === '' ? 'blank' : remark.value}</td>
                <td>{remark.outcome}</td>
                <td>{remark.message}</td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </section>
  );
}
