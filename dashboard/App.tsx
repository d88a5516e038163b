import { type Component, createEffect, createSignal, on } from 'solid-js';
import { Dynamic } from 'solid-js/web';
import type { SettingsChanges } from '../analysis/settings.ts';
import type { Connected } from './client/connect.ts';
import { demoInputs } from './client/demo.ts';
import { LedgerNote } from './parts/LedgerNote.tsx';
import { late } from './parts/late.tsx';
import type { LedgerRequest } from './parts/ledger-request.ts';
import { Masthead } from './parts/Masthead.tsx';
import { Notices } from './parts/Notices.tsx';
import { Rank } from './rank/Rank.tsx';
import { otherFiles } from './state/changes.ts';
import { type Desk, DeskProvider } from './state/desk.ts';
import { fromFragment, toFragment } from './state/fragment.ts';
import { inputsOf, nothingHeld } from './state/held.ts';
import { createKeeping, heldIn, type Resumed, withMapsOf } from './state/keeping.ts';
import type { View } from './state/page-state.ts';
import { createSession } from './state/session.ts';
import { createDark, createMedia, createPageStore } from './state/store.ts';
import { createSurvey } from './state/survey.ts';
import { followUndoKeys } from './state/undo-keys.ts';
import type { Opened } from './workspace/store.ts';

/** Each view; only the first one shown is part of what a first visit waits for. */
const viewParts: Readonly<Record<View, Component>> = {
  Sources: late(async () => (await import('./sources/Sources.tsx')).Sources, 'Opening Sources …'),
  Rank,
  Exposure: late(
    async () => (await import('./exposure/Exposure.tsx')).Exposure,
    'Opening Exposure …',
  ),
  Sample: late(async () => (await import('./sample/Sample.tsx')).Sample, 'Opening Sample …'),
  Findings: late(
    async () => (await import('./findings/Findings.tsx')).Findings,
    'Opening Findings …',
  ),
  Settings: late(
    async () => (await import('./settings/Settings.tsx')).Settings,
    'Opening Settings …',
  ),
  Method: late(async () => (await import('./method/Method.tsx')).Method, 'Opening Method …'),
};

/** The page. Without a workspace the invented example opens by itself, so that the first screen shows what the tool is for. */
export function App(props: { readonly analyst: Connected; readonly resumed: Resumed }) {
  const desk = createDesk(props.analyst, props.resumed);
  createEffect(() => {
    document.title = `${desk.state.view} · Rainledger`;
  });
  return (
    <DeskProvider value={desk}>
      <div class="page">
        <Masthead />
        <Notices />
        <main>
          <Dynamic component={viewParts[desk.state.view]} />
        </main>
      </div>
      <LedgerNote />
    </DeskProvider>
  );
}

function createDesk(analyst: Connected, resumed: Resumed): Desk {
  const last = resumed.keeper.current();
  const session = createSession(analyst);
  const [held, hold] = createSignal(last ? heldIn(last) : nothingHeld);
  const keeping = createKeeping(resumed, held);
  const store = createPageStore(inputsOf(held()) !== null, last?.workspace.address ?? '');
  const [ledger, setLedger] = createSignal<LedgerRequest | null>(null);

  const openDemo = (example = demoInputs): Promise<boolean> =>
    session.open(example, 'the invented example');
  const openHeld = async (settings: SettingsChanges): Promise<boolean> => {
    const inputs = inputsOf(held());
    if (!inputs) return openDemo();
    const opened = await session.open({ ...inputs, settings }, inputs.buildings.name);
    const report = session.opened()?.report;
    if (opened && report) hold((before) => withMapsOf(before, report));
    return opened;
  };
  const settingsOf = (opened: Opened | null) =>
    (opened?.workspace.settings ?? {}) as SettingsChanges;

  createEffect(on(session.changes, keeping.keepSettings, { defer: true }));
  createEffect(() => keeping.keepAddress(toFragment(store.state)));
  analyst.onTrouble((message) => session.trouble(message));
  analyst.onRestart(() => void session.reopen());
  void openHeld(settingsOf(last));
  followUndoKeys(store);
  return {
    ...store,
    session,
    held,
    hold,
    keeping,
    survey: createSurvey(session, keeping, held),
    openHeld: () => openHeld(session.changes()),
    openWorkspace: async (opening) => {
      const opened = await opening;
      if (!opened) return;
      hold(heldIn(opened));
      store.apply(() => ({ ...fromFragment(opened.workspace.address), own: true }));
      await openHeld(settingsOf(opened));
    },
    openExample: async () => {
      const example = demoInputs();
      // What is open is not let go for an example that does not come; why, the opening tells.
      const comes = await example.then(
        () => true,
        () => false,
      );
      if (comes) {
        await keeping.close();
        hold(nothingHeld);
      }
      if (await openDemo(() => example)) store.apply(otherFiles(false));
    },
    dark: createDark(store.state),
    narrow: createMedia('(max-width: 1080px)'),
    beside: createMedia('(min-width: 1340px)'),
    ledger,
    openLedger: setLedger,
    closeLedger: () => setLedger(null),
  };
}
