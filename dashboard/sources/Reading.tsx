import { Show } from 'solid-js';
import { digits } from '../parts/format.ts';
import { useDesk } from '../state/desk.ts';

/** How far the reading is, and a way to stop it: what was open before stays open. */
export function Reading() {
  const { session } = useDesk();
  const what = () => {
    const phase = session.phase();
    return session.progress()?.what ?? (phase.kind === 'opening' ? `Reading ${phase.what}` : '');
  };
  const share = () => session.progress()?.share ?? null;
  return (
    <div class="reading">
      <p role="status">
        {what()}{' '}
        <Show when={share() !== null}>{digits(Math.floor((share() ?? 0) * 100), 0)} %</Show>
      </p>
      <Show when={share() !== null} fallback={<progress aria-label={what()} />}>
        <progress max={1} value={share() ?? 0} aria-label={what()} />
      </Show>
      <button type="button" class="push-button" onClick={() => session.cancel()}>
        Stop
      </button>
    </div>
  );
}
