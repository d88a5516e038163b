import { createResource, For, Show } from 'solid-js';
import { counted } from '../parts/format.ts';
import { useDesk } from '../state/desk.ts';

/** Corrections that would probably do, offered a kind at a time and never made unasked. */
export function Mends() {
  const { session, hold } = useDesk();
  const [mends] = createResource(
    () => session.opened()?.version,
    () => session.analyst.mends(),
  );
  return (
    <Show when={(mends.latest?.length ?? 0) > 0}>
      <ul class="mends" aria-label="Corrections offered">
        <For each={mends.latest}>
          {(mend) => (
            <li>
              <span>
                {mend.says} in {counted(new Set(mend.edits.map(({ row }) => row)).size, 'row')}:
                look at a few of them below first.
              </span>
              <button
                type="button"
                class="push-button"
                disabled={session.phase().kind === 'opening'}
                onClick={() => session.correct(mend.edits, hold)}
              >
                {mend.says}
              </button>
            </li>
          )}
        </For>
      </ul>
    </Show>
  );
}
