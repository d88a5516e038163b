import { createResource, createSignal, For, Match, Show, Switch } from 'solid-js';
import type { Role } from '../../analysis/session-types.ts';
import { fileSource } from '../client/files.ts';
import { counted, digits } from '../parts/format.ts';
import { useDesk } from '../state/desk.ts';
import { type HeldFile, withoutFile, withReading, withRole } from '../state/held.ts';
import { ColumnSheet } from './ColumnSheet.tsx';
import { roleNames, roleWords } from './role-words.ts';

const isTable = (role: Role): role is 'buildings' | 'walls' =>
  role === 'buildings' || role === 'walls';

/** One file at hand: what it is read as and, for a table, how its columns are read. */
export function FileRow(props: { readonly held: HeldFile }) {
  const { session, held, hold } = useDesk();
  const [unfolded, setUnfolded] = createSignal(false);
  const asked = () => ({ ...props.held, maps: held().maps });
  const [preview] = createResource(asked, async ({ file, role, reading, maps }) => {
    if (!isTable(role)) return null;
    return session.analyst.preview(fileSource(file), role, reading, maps);
  });
  const found = () => (preview.error ? undefined : (preview.latest ?? undefined));
  return (
    <li class="held-file">
      <div class="held-line">
        <b class="held-name">{props.held.file.name}</b>
        <span class="soft">{size(props.held.file.size)}</span>
        <label>
          read as{' '}
          <select
            value={props.held.role}
            onChange={(event) =>
              hold((h) => withRole(h, props.held.file.name, event.currentTarget.value as Role))
            }
          >
            <For each={roleNames}>{(role) => <option value={role}>{roleWords[role]}</option>}</For>
          </select>
        </label>
        <button
          type="button"
          class="plain-button"
          aria-label={`Take away ${props.held.file.name}`}
          onClick={() => hold((h) => withoutFile(h, props.held.file.name))}
        >
          take away
        </button>
      </div>
      <Switch>
        <Match when={preview.error}>
          <p class="held-trouble" role="alert">
            {String(preview.error.message ?? preview.error)}
          </p>
        </Match>
        <Match when={found()}>
          {(preview) => (
            <>
              <p class="held-summary">
                {summary(preview().guessed.map.columns)}{' '}
                <Show when={preview().missing}>
                  {(missing) => <span class="held-trouble">{missing()} </span>}
                </Show>
                <Show when={preview().guessed.unmatched.length > 0}>
                  {counted(preview().guessed.unmatched.length, 'value')} not understood.{' '}
                </Show>
                <button
                  type="button"
                  class="plain-button"
                  aria-expanded={unfolded()}
                  onClick={() => setUnfolded(!unfolded())}
                >
                  {unfolded() ? 'Fold the columns' : 'See and change how columns are read'}
                </button>
              </p>
              <Show when={unfolded()}>
                <ColumnSheet
                  preview={preview()}
                  reading={props.held.reading}
                  onReading={(reading) =>
                    hold((h) => withReading(h, props.held.file.name, reading))
                  }
                />
              </Show>
            </>
          )}
        </Match>
        <Match when={preview.loading && isTable(props.held.role)}>
          <p class="soft" role="status">
            Looking at its columns …
          </p>
        </Match>
      </Switch>
    </li>
  );
}

const size = (bytes: number): string =>
  bytes < 1024 * 1024
    ? `${digits(Math.ceil(bytes / 1024), 0)} kB`
    : `${digits(bytes / 1024 / 1024, 1)} MB`;

function summary(columns: readonly { readonly fills: unknown }[]): string {
  const read = columns.filter(({ fills }) => fills !== null).length;
  const kept = columns.length - read;
  const rest =
    kept === 0 ? '' : `; ${counted(kept, 'other')} kept as ${kept === 1 ? 'it is' : 'they are'}`;
  return `${read} of ${counted(columns.length, 'column')} understood${rest}.`;
}
