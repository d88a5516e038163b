import { createResource, createSignal, For, Match, Show, Switch } from 'solid-js';
import { counted } from '../parts/format.ts';
import { save } from '../parts/save.ts';
import { Term } from '../parts/Term.tsx';
import { useDesk } from '../state/desk.ts';
import { ending } from './one-file.ts';
import { bytesInWords } from './trouble.ts';
import './workspace.css';

const at = (iso: string): string => (iso ? new Date(iso).toLocaleString() : 'not yet');

/** What is kept in this browser, and how to take it along. */
export function WorkspaceBar() {
  const { keeping, openWorkspace } = useDesk();
  const [unfolded, setUnfolded] = createSignal(false);
  const toFile = async () => {
    const file = await keeping.toFile();
    if (file) save(file.name, file, file.type);
  };
  const fromFile = async (input: HTMLInputElement) => {
    const [file] = input.files ?? [];
    input.value = '';
    if (file) await openWorkspace(keeping.fromFile(file));
  };
  return (
    <section class="workspace" aria-label="Workspace">
      <div class="workspace-line">
        <Show
          when={keeping.current()}
          fallback={
            <span class="soft">
              What you open is kept in this browser as a <Term of="workspace">workspace</Term>.
            </span>
          }
        >
          {(current) => (
            <>
              <label>
                Workspace{' '}
                <input
                  type="text"
                  value={current().workspace.name}
                  onChange={(event) =>
                    keeping.rename(event.currentTarget.value.trim() || 'unnamed')
                  }
                />
              </label>
              <Status />
              <button type="button" class="plain-button" onClick={toFile}>
                Save to a file
              </button>
              <button type="button" class="plain-button" onClick={() => keeping.copy()}>
                Go on with a copy
              </button>
            </>
          )}
        </Show>
        <button
          type="button"
          class="plain-button"
          aria-expanded={unfolded()}
          onClick={() => setUnfolded(!unfolded())}
        >
          {unfolded() ? 'Fold' : 'Other workspaces'}
        </button>
      </div>
      <Show when={keeping.trouble()}>
        {(message) => (
          <p class="held-trouble" role="alert">
            {message()}
          </p>
        )}
      </Show>
      <Show when={keeping.firmness()}>{(message) => <p class="soft">{message()}</p>}</Show>
      <Show when={unfolded()}>
        <Others />
        <p>
          <label>
            Open a workspace from a file:{' '}
            <input
              type="file"
              accept={ending}
              onChange={(event) => fromFile(event.currentTarget)}
            />
          </label>
        </p>
      </Show>
      <Show when={keeping.current()}>
        {(current) => (
          <details class="workspace-notes">
            <summary>Notes{current().workspace.notes ? '' : ', none yet'}</summary>
            <textarea
              aria-label="Notes"
              rows={4}
              value={current().workspace.notes}
              onInput={(event) => keeping.note(event.currentTarget.value)}
            />
          </details>
        )}
      </Show>
    </section>
  );
}

function Status() {
  const { keeping, openWorkspace } = useDesk();
  const status = keeping.status;
  const message = () => {
    const now = status();
    return 'message' in now ? now.message : '';
  };
  return (
    <Switch>
      <Match when={status().kind === 'saving'}>
        <span class="soft" role="status">
          saving …
        </span>
      </Match>
      <Match when={status().kind === 'kept'}>
        <span class="soft" role="status">
          kept in this browser, {at(keeping.current()?.workspace.savedAt ?? '')}
        </span>
      </Match>
      <Match when={status().kind === 'reading'}>
        <span role="status">
          {message()}{' '}
          <button
            type="button"
            class="plain-button"
            onClick={() => openWorkspace(keeping.takeOver())}
          >
            Take it over
          </button>
        </span>
      </Match>
      <Match when={status().kind === 'not kept'}>
        <span class="held-trouble" role="alert">
          {message()}
        </span>
      </Match>
    </Switch>
  );
}

function Others() {
  const { keeping, openWorkspace } = useDesk();
  const [listings, { refetch }] = createResource(keeping.list);
  const others = () =>
    (listings.latest ?? []).filter(({ id }) => id !== keeping.current()?.workspace.id);
  const remove = async (id: string) => {
    await keeping.remove(id);
    await refetch();
  };
  return (
    <ul class="workspaces">
      <For each={others()} fallback={<li class="soft">There is no other workspace here.</li>}>
        {(one) => (
          <li>
            <b>{one.name}</b>
            <span class="soft">
              {one.fileNames.join(', ') || 'no files'}; {bytesInWords(one.bytes)}, saved{' '}
              {at(one.savedAt)}
            </span>
            <button
              type="button"
              class="plain-button"
              onClick={() => openWorkspace(keeping.open(one.id))}
            >
              Open<span class="unseen"> {one.name}</span>
            </button>
            <Remove name={one.name} files={one.fileNames.length} onRemove={() => remove(one.id)} />
          </li>
        )}
      </For>
    </ul>
  );
}

/** Two steps: what is removed is gone. */
function Remove(props: {
  readonly name: string;
  readonly files: number;
  readonly onRemove: () => void;
}) {
  const [asked, setAsked] = createSignal(false);
  return (
    <Show
      when={asked()}
      fallback={
        <button type="button" class="plain-button" onClick={() => setAsked(true)}>
          Remove<span class="unseen"> {props.name}</span>
        </button>
      }
    >
      <span>
        Remove it with its {counted(props.files, 'file')}? It cannot be brought back.{' '}
        <button type="button" class="plain-button" onClick={() => props.onRemove()}>
          Remove
        </button>{' '}
        <button type="button" class="plain-button" onClick={() => setAsked(false)}>
          Keep
        </button>
      </span>
    </Show>
  );
}
