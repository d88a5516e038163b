import { Match, Switch } from 'solid-js';
import { Term } from '../parts/Term.tsx';
import { useDesk } from '../state/desk.ts';
import { keepOffline, kept } from './offline.ts';

/** Whether the page opens without a network, in two words; nothing until it is known. */
export function OfflineWord() {
  keepOffline(useDesk().session);
  return (
    <span class="offline-word" role="status">
      <Switch>
        <Match when={kept() === 'refused'}>
          <Term of="needs_network">Needs a network.</Term>
        </Match>
        <Match when={kept() !== 'not yet'}>
          <Term of="works_offline">Works offline.</Term>
        </Match>
      </Switch>
    </span>
  );
}
