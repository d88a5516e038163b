import { Show } from 'solid-js';
import { NewVersion } from '../offline/NewVersion.tsx';
import { changedWords } from '../settings/changed-words.ts';
import { patch } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';

/** What must be known before anything on the page is read: invented data, lost files, other settings, an engine that stopped. */
export function Notices() {
  const { state, apply, session, lost } = useDesk();
  const trouble = () => {
    const phase = session.phase();
    return phase.kind === 'trouble' ? phase.message : undefined;
  };
  const changed = () => (state.view === 'Settings' ? '' : changedWords(session.changes()));
  const toSettings = () => apply(patch({ view: 'Settings', opened: false }));
  const toSources = () => apply(patch({ view: 'Sources', opened: false }));
  return (
    <aside class="notices" aria-label="Notices">
      <Show when={trouble()}>
        {(message) => (
          <p class="notice" data-tone="alarm" role="alert">
            The analysis stopped: {message()}{' '}
            <button type="button" onClick={() => location.reload()}>
              Start it again
            </button>
          </p>
        )}
      </Show>
      <NewVersion />
      <Show when={session.opened()?.report.demo}>
        <p class="notice">
          <b>Invented example:</b>{' '}
          <Show when={lost}>this browser does not hold the files that the address speaks of. </Show>
          these buildings, owners and records are made up; only the rain is real.{' '}
          <Show when={state.view !== 'Sources'} fallback="Open your own files below.">
            <button type="button" onClick={toSources}>
              Open your own files in Sources
            </button>
            .
          </Show>
        </p>
      </Show>
      <Show when={changed()}>
        {(words) => (
          <p class="notice">
            <b>Settings differ from what ships:</b> {words()}.{' '}
            <button type="button" onClick={toSettings}>
              See them in Settings
            </button>
            .
          </p>
        )}
      </Show>
    </aside>
  );
}
