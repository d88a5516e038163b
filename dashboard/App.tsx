import { createEffect, createSignal, Match, Switch } from 'solid-js';
import type { Analyst } from '../analysis/session-types.ts';
import { demoInputs } from './client/demo.ts';
import { Method } from './method/Method.tsx';
import { LedgerNote } from './parts/LedgerNote.tsx';
import type { LedgerRequest } from './parts/ledger-request.ts';
import { Masthead } from './parts/Masthead.tsx';
import { Notices } from './parts/Notices.tsx';
import { Rank } from './rank/Rank.tsx';
import { Settings } from './settings/Settings.tsx';
import { Sources } from './sources/Sources.tsx';
import { type Desk, DeskProvider } from './state/desk.ts';
import { createSession } from './state/session.ts';
import { createDark, createMedia, createPageStore } from './state/store.ts';

/** The page. The invented example opens by itself, so that the first screen shows what the tool is for. */
export function App(props: { readonly analyst: Analyst & Troubled }) {
  const desk = createDesk(props.analyst);
  createEffect(() => {
    document.title = `${desk.state.view} · Rainledger`;
  });
  void desk.session.open(demoInputs(), 'the invented example');
  return (
    <DeskProvider value={desk}>
      <div class="page">
        <Masthead />
        <Notices />
        <main>
          <Switch>
            <Match when={desk.state.view === 'Sources'}>
              <Sources />
            </Match>
            <Match when={desk.state.view === 'Rank'}>
              <Rank />
            </Match>
            <Match when={desk.state.view === 'Settings'}>
              <Settings />
            </Match>
            <Match when={desk.state.view === 'Method'}>
              <Method />
            </Match>
          </Switch>
        </main>
      </div>
      <LedgerNote />
    </DeskProvider>
  );
}

interface Troubled {
  readonly onTrouble: (listener: (message: string) => void) => void;
}

function createDesk(analyst: Analyst & Troubled): Desk {
  const store = createPageStore();
  const session = createSession(analyst);
  const [ledger, setLedger] = createSignal<LedgerRequest | null>(null);
  analyst.onTrouble((message) => session.trouble(message));
  return {
    ...store,
    session,
    dark: createDark(store.state),
    narrow: createMedia('(max-width: 1080px)'),
    beside: createMedia('(min-width: 1340px)'),
    ledger,
    openLedger: setLedger,
    closeLedger: () => setLedger(null),
  };
}
