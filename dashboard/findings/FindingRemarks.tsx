import { createSignal, For, Show } from 'solid-js';
import type { MarkedRemark } from '../../analysis/session-types.ts';
import { loggedName } from '../state/survey.ts';
import '../sources/remarks.css';

/** Remarks shown at a time. */
const window = 100;

const headings = ['File', 'Row', 'Column', 'Value', 'Outcome', 'Reason'];

/** What was said of single rows of the findings: why they were set aside, or what they leave open. */
export function FindingRemarks(props: { readonly remarks: readonly MarkedRemark[] }) {
  const [limit, setLimit] = createSignal(window);
  const fileOf = (file: string) => (file === loggedName ? 'logged in this page' : file);
  return (
    <Show when={props.remarks.length > 0}>
      <section
        class="remark-scroll"
        tabindex={0}
        aria-label="Findings set aside, and notes on findings kept"
      >
        <table>
          <caption class="unseen">Findings set aside, and notes on findings kept</caption>
          <thead>
            <tr>
              <For each={headings}>{(heading) => <th scope="col">{heading}</th>}</For>
            </tr>
          </thead>
          <tbody>
            <For each={props.remarks.slice(0, limit())}>
              {(remark) => (
                <tr>
                  <td>{fileOf(remark.file)}</td>
                  <td>{remark.row}</td>
                  <td>{remark.column}</td>
                  <td class="value">{remark.value === '' ? 'blank' : remark.value}</td>
                  <td>{remark.outcome}</td>
                  <td>{remark.message}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
        <Show when={props.remarks.length > limit()}>
          <button type="button" class="plain-button" onClick={() => setLimit((n) => n + window)}>
            Show {window} more
          </button>
        </Show>
      </section>
    </Show>
  );
}
