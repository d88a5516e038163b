import { For, Show } from 'solid-js';
import type { FileReport } from '../../analysis/session-types.ts';
import { counted, digits } from '../parts/format.ts';
import { roleWords } from './role-words.ts';

/** One file's account: rows read = accepted + set aside, so that nothing is lost unseen. */
export function FileOutcome(props: { readonly file: FileReport }) {
  const file = () => props.file;
  const parts = () => [
    { n: file().accepted, word: 'accepted' },
    ...(file().joined > 0 ? [{ n: file().joined, word: 'one with an earlier row' }] : []),
    { n: file().setAside, word: 'set aside' },
  ];
  return (
    <section class="file-outcome" aria-label={`${file().file}, ${roleWords[file().role]}`}>
      <h4>
        {file().file} <span class="soft">{roleWords[file().role]}</span>
      </h4>
      <p class="sum">
        <span>
          <b>{digits(file().rowsRead, 0)}</b> rows read
        </span>
        <For each={parts()}>
          {(part, i) => (
            <>
              <span aria-hidden="true">{i() === 0 ? '=' : '+'}</span>
              <span>
                <b>{digits(part.n, 0)}</b> {part.word}
              </span>
            </>
          )}
        </For>
      </p>
      <p>
        {file().noted === 0
          ? 'Every cell could be read.'
          : `${counted(file().noted, 'note')} on the rows kept.`}{' '}
        <For each={file().notes}>{(note) => <>{note} </>}</For>
        <Show when={file().unknownColumns.length > 0}>
          Columns kept as they are, not used: {file().unknownColumns.join(', ')}.
        </Show>
      </p>
    </section>
  );
}
