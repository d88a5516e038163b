import { createSignal, Match, Switch } from 'solid-js';
import { useDesk } from '../state/desk.ts';
import type { KeepStatus } from '../workspace/keeper-types.ts';
import { lossWords } from './loss-words.ts';
import { kept, renew } from './offline.ts';

/** A newer version waits, or was taken up in another tab. The page is never loaded anew without the reader's word. */
export function NewVersion() {
  const { keeping, session } = useDesk();
  const [later, setLater] = createSignal(false);
  const saving = () => keeping.status().kind === ('saving' satisfies KeepStatus['kind']);
  const loss = () => lossWords(keeping.status(), session.changes());
  return (
    <Switch>
      <Match when={kept() === 'newer waits' && !later()}>
        <p class="notice" role="status">
          <b>A new version of Rainledger is here.</b> {loss()}{' '}
          <button type="button" disabled={saving()} onClick={renew}>
            Load it now
          </button>{' '}
          <button type="button" onClick={() => setLater(true)}>
            Not now
          </button>
        </p>
      </Match>
      <Match when={kept() === 'newer in use'}>
        <p class="notice" role="status">
          <b>Another tab took up a new version of Rainledger.</b> Parts of this page that are not
          open yet may no longer be at hand. {loss()}{' '}
          <button type="button" disabled={saving()} onClick={() => location.reload()}>
            Load it here too
          </button>
        </p>
      </Match>
    </Switch>
  );
}
