import { createResource, createSignal, For, Show } from 'solid-js';
import type { MarkedRemark, Outcome } from '../../analysis/session-types.ts';
import { Choice } from '../parts/Choice.tsx';
import { counted, digits } from '../parts/format.ts';
import { save } from '../parts/save.ts';
import { TermLine } from '../parts/TermLine.tsx';
import { useDesk } from '../state/desk.ts';
import { Mends } from './Mends.tsx';
import { RecordEditor } from './RecordEditor.tsx';
import './remarks.css';

const outcomes: readonly { value: Outcome | 'any'; word: string }[] = [
  { value: 'any', word: 'all' },
  { value: 'row set aside', word: 'rows set aside' },
  { value: 'row kept', word: 'notes on rows kept' },
];

/** Remarks fetched at a time: a spoilt file may have a million, and the download holds them all. */
const window = 200;

/** Every remark about the files that are open: filtered, corrected in place, downloaded. */
export function RemarkTable() {
  const { session } = useDesk();
  const [outcome, setOutcome] = createSignal<Outcome | 'any'>('any');
  const [words, setWords] = createSignal('');
  const [limit, setLimit] = createSignal(window);
  const asked = () => {
    const version = session.opened()?.version;
    return version === undefined
      ? null
      : { version, outcome: outcome(), words: words(), count: limit() };
  };
  const [found] = createResource(asked, ({ outcome, words, count }) =>
    session.analyst.remarks({ ...(outcome === 'any' ? {} : { outcome }), words, from: 0, count }),
  );
  const total = () =>
    session.opened()?.report.files.reduce((sum, f) => sum + f.setAside + f.noted, 0) ?? 0;
  const countOf = (n: number) =>
    n === total() ? counted(n, 'remark') : `${digits(n, 0)} of ${counted(total(), 'remark')}`;
  const download = async () =>
    save('set-aside.csv', await session.analyst.remarksText(), 'text/csv');
  return (
    <Show
      when={total() > 0}
      fallback={<p class="soft">No row was set aside, and every cell could be read.</p>}
    >
      <section class="remarks" aria-label="Rows set aside, and notes on rows kept">
        <h3>Rows set aside, and notes on rows kept</h3>
        <TermLine of={['set_aside', 'note_on_row']} />
        <Mends />
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
          <span role="status">{countOf(found.latest?.n ?? 0)}</span>
          <button type="button" class="plain-button" onClick={download}>
            Download as CSV
          </button>
        </div>
        <Show
          when={(found.latest?.n ?? 0) > 0}
          fallback={<p class="panel-state">{found.latest ? 'No remark matches.' : 'Looking …'}</p>}
        >
          <Remarks remarks={found.latest?.rows ?? []} />
        </Show>
        <Show when={(found.latest?.n ?? 0) > limit()}>
          <button type="button" class="plain-button" onClick={() => setLimit((n) => n + window)}>
            Show {window} more
          </button>
        </Show>
      </section>
    </Show>
  );
}

function Remarks(props: { readonly remarks: readonly MarkedRemark[] }) {
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
            <th scope="col">
              <span class="unseen">Correct</span>
            </th>
          </tr>
        </thead>
        <tbody>
          <For each={props.remarks}>{(remark) => <RemarkRow remark={remark} />}</For>
        </tbody>
      </table>
    </section>
  );
}

function RemarkRow(props: { readonly remark: MarkedRemark }) {
  const [editing, setEditing] = createSignal(false);
  const remark = () => props.remark;
  return (
    <>
      <tr>
        <td class="file">{remark().file}</td>
        <td class="right">{remark().row}</td>
        <td>{remark().column}</td>
        <td class="value">{remark().value === '' ? 'blank' : remark().value}</td>
        <td>{remark().outcome}</td>
        <td class="message">{remark().message}</td>
        <td>
          <Show when={remark().table}>
            <button
              type="button"
              class="plain-button"
              aria-expanded={editing()}
              aria-label={`Correct row ${remark().row} of ${remark().file}`}
              onClick={() => setEditing(!editing())}
            >
              {editing() ? 'fold' : 'correct'}
            </button>
          </Show>
        </td>
      </tr>
      <Show when={editing()}>
        <tr class="editing">
          <td colspan={7}>
            <RecordEditor remark={remark()} />
          </td>
        </tr>
      </Show>
    </>
  );
}
