import { createSignal, For, Match, Show, Switch } from 'solid-js';
import { demoInputs } from '../client/demo.ts';
import { fileSource } from '../client/files.ts';
import { counted } from '../parts/format.ts';
import { otherFiles, patch } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { FileOutcome } from './FileOutcome.tsx';
import { FilePick } from './FilePick.tsx';
import { nothingPicked, type Picked } from './guess-role.ts';
import { Headings } from './Headings.tsx';
import { RemarkTable } from './RemarkTable.tsx';
import './sources.css';

/** Where files come in, and where every row of them is accounted for. */
export function Sources() {
  const { session, apply } = useDesk();
  const [picked, setPicked] = createSignal<Picked>(nothingPicked);
  const busy = () => session.phase().kind === 'opening';
  const read = async () => {
    const { buildings, ...others } = picked();
    if (!buildings) return;
    const beside = Object.entries(others).flatMap(([role, file]) =>
      file ? [[role, fileSource(file)]] : [],
    );
    const inputs = { buildings: fileSource(buildings), ...Object.fromEntries(beside) };
    if (await session.open(inputs, buildings.name)) apply(otherFiles(true));
  };
  const openExample = async () => {
    if (await session.open(demoInputs(), 'the invented example')) apply(otherFiles(false));
  };
  return (
    <section class="sheet-of-text sources" aria-label="Sources">
      <h2>Sources</h2>
      <p class="lead">
        Your files are read here, in this page. Nothing is sent anywhere, and nothing is kept when
        the page is closed.
      </p>
      <FilePick picked={picked()} onPick={setPicked} />
      <p class="source-actions">
        <button
          type="button"
          class="push-button"
          data-main
          disabled={!picked().buildings || busy()}
          onClick={read}
        >
          Read these files
        </button>
        <button type="button" class="push-button" disabled={busy()} onClick={openExample}>
          Open the invented example
        </button>
        <Show when={!picked().buildings}>
          <span class="soft">A buildings file is needed; the others may be left out.</span>
        </Show>
      </p>
      <Outcome />
      <Headings />
    </section>
  );
}

function Outcome() {
  const { session, apply } = useDesk();
  const refused = () => {
    const phase = session.phase();
    return phase.kind === 'refused' ? phase : null;
  };
  const opening = () => {
    const phase = session.phase();
    return phase.kind === 'opening' ? phase : null;
  };
  return (
    <section class="outcome" aria-label="What was read">
      <Switch>
        <Match when={opening()}>{(phase) => <p role="status">Reading {phase().what} …</p>}</Match>
        <Match when={refused()}>
          {(phase) => (
            <div class="refusal" role="alert">
              <h3>{phase().file || 'The file'} was not read</h3>
              <p>{phase().message}</p>
              <Show when={session.opened()}>
                {(opened) => (
                  <p>
                    What was open before is still open:{' '}
                    {opened().report.demo
                      ? 'the invented example'
                      : counted(opened().frame.n, 'building')}
                    .
                  </p>
                )}
              </Show>
            </div>
          )}
        </Match>
      </Switch>
      <Show when={session.opened()}>
        {(opened) => (
          <>
            <h3>Open now: {opened().report.demo ? 'the invented example' : 'your files'}</h3>
            <For each={opened().report.files}>{(file) => <FileOutcome file={file} />}</For>
            <p class="source-actions">
              <button
                type="button"
                class="push-button"
                onClick={() => apply(patch({ view: 'Rank' }))}
              >
                Go to the ranking
              </button>
            </p>
            <RemarkTable files={opened().report.files} />
          </>
        )}
      </Show>
    </section>
  );
}
