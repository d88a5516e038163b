import { Show } from 'solid-js';
import type { FileReport } from '../../analysis/session-types.ts';
import { counted, digits } from '../parts/format.ts';
import { roleWords } from './role-words.ts';

/** One file's account: rows read = accepted + set aside, so that nothing is lost unseen. */
export function FileOutcome(props: { readonly file: FileReport }) {
  const file = () => props.file;
  return (
    <section class="file-outcome" aria-label={file().file}>
      <h4>
        {file().file} <span class="soft">{roleWords[file().role]}</span>
      </h4>
      <p class="sum">
        <span>
          <b>{digits(file().rowsRead, 0)}</b> rows read
        </span>
        <span aria-hidden="true">=</span>
        <span>
          <b>{digits(file().accepted, 0)}</b> accepted
        </span>
        <span aria-hidden="true">+</span>
        <span>
          <b>{digits(file().setAside.length, 0)}</b> set aside
        </span>
      </p>
      <p>
        {file().noted.length === 0
          ? 'Every cell could be read.'
          : `${counted(file().noted.length, 'cell')} could not be read and ${file().noted.length === 1 ? 'is' : 'are'} taken as no record.`}{' '}
        <Show when={file().unknownColumns.length > 0}>
          Columns kept as they are, not used: {file().unknownColumns.join(', ')}.
        </Show>
      </p>
    </section>
  );
}
