import { createSignal, For, Match, Show, Switch } from 'solid-js';
import { readCorrections } from '../../analysis/corrections.ts';
import { fileSource } from '../client/files.ts';
import { counted } from '../parts/format.ts';
import { otherFiles, patch } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { inputsOf, withFile } from '../state/held.ts';
import { WorkspaceBar } from '../workspace/WorkspaceBar.tsx';
import { FileDrop } from './FileDrop.tsx';
import { FileOutcome } from './FileOutcome.tsx';
import { FileRow } from './FileRow.tsx';
import { guessRole, roleOfShape } from './guess-role.ts';
import { Headings } from './Headings.tsx';
import { Reading } from './Reading.tsx';
import { RemarkTable } from './RemarkTable.tsx';
import './sources.css';

/** Where files come in, and where every row of them is accounted for. */
export function Sources() {
  const { session, apply, held, hold, keeping, openHeld, openWorkspace, openExample } = useDesk();
  const [trouble, setTrouble] = createSignal<string | null>(null);
  const busy = () => session.phase().kind === 'opening';
  const add = async (file: File) => {
    if (/\.rainledger$/i.test(file.name)) return openWorkspace(keeping.fromFile(file));
    if (/set-aside.*\.csv$/i.test(file.name)) return correctBy(file);
    const named = guessRole(file.name);
    const isTable = named === null || named === 'buildings' || named === 'walls';
    const role = isTable ? ((await roleByContent(file)) ?? named ?? 'buildings') : named;
    hold((h) => withFile(h, { file, role, reading: {} }));
  };
  const roleByContent = async (file: File) => {
    try {
      const { guessed } = await session.analyst.preview(fileSource(file), 'any', {}, held().maps);
      return guessed.missing.length > 0 ? null : roleOfShape(guessed.map.shape);
    } catch {
      return null;
    }
  };
  const correctBy = async (file: File) => {
    await session.correct(await readCorrections(fileSource(file)), hold);
  };
  const addAll = async (files: readonly File[]) => {
    setTrouble(null);
    for (const file of files) {
      await add(file).catch((error: Error) => setTrouble(error.message));
    }
  };
  const read = async () => {
    if (await openHeld()) apply(otherFiles(true));
  };
  return (
    <section class="sheet-of-text sources" aria-label="Sources">
      <h2>Sources</h2>
      <p class="lead">
        Your files are read here, in this page. Nothing is sent anywhere. Nobody’s spreadsheet has
        our headings: each column is guessed, shown, and yours to change before anything is read.
      </p>
      <WorkspaceBar />
      <FileDrop onFiles={addAll} />
      <Show when={trouble()}>
        <p class="held-trouble" role="alert">
          {trouble()}
        </p>
      </Show>
      <Show when={held().files.length > 0}>
        <h3 class="held-title">Files at hand</h3>
        <ul class="held-files">
          <For each={held().files.map(({ file }) => file.name)}>
            {(name) => (
              <Show when={held().files.find(({ file }) => file.name === name)}>
                {(one) => <FileRow held={one()} />}
              </Show>
            )}
          </For>
        </ul>
      </Show>
      <p class="source-actions">
        <button
          type="button"
          class="push-button"
          data-main
          disabled={!inputsOf(held()) || busy()}
          onClick={read}
        >
          Read these files
        </button>
        <button type="button" class="push-button" disabled={busy()} onClick={openExample}>
          Open the invented example
        </button>
        <Show when={!inputsOf(held())}>
          <span class="soft">A building list is needed; everything else may be left out.</span>
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
  return (
    <section class="outcome" aria-label="What was read">
      <Switch>
        <Match when={session.phase().kind === 'opening'}>
          <Reading />
        </Match>
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
            <RemarkTable />
          </>
        )}
      </Show>
    </section>
  );
}
