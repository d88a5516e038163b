import { createEffect, createSignal, on, onCleanup, onMount } from 'solid-js';
import type { SettingsChanges } from '../../analysis/settings.ts';
import { messageOf } from '../parts/message-of.ts';
import type { Session } from '../state/session.ts';
import { changesOfText } from './draft.ts';
import { type Settled, settled } from './taken.ts';

/** Milliseconds without a further change after which the ranking is made anew. */
const pause = 300;

const noTroubles: Settled['troubles'] = new Map();

/**
 * The settings as they are being typed. What can be taken of them is scored after a pause, whatever else stands in the
 * form; what cannot stays in its field with the reason beside it. Call within a component.
 */
export function createDraft(session: Session) {
  const [draft, setDraft] = createSignal<SettingsChanges>(session.changes());
  const [taken, setTaken] = createSignal<SettingsChanges>(session.changes());
  const [troubles, setTroubles] = createSignal(noTroubles);
  const [fileTrouble, setFileTrouble] = createSignal<string | null>(null);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const rescore = () => {
    clearTimeout(timer);
    if (timer === undefined) return;
    timer = undefined;
    void session.rescore(taken());
  };
  const change = (typed: SettingsChanges) => {
    const found = settled(taken(), typed);
    setDraft(typed);
    setTroubles(found.troubles);
    setFileTrouble(null);
    if (JSON.stringify(found.taken) === JSON.stringify(taken())) return;
    setTaken(found.taken);
    clearTimeout(timer);
    timer = setTimeout(rescore, pause);
  };
  // Settings of a workspace come with its files, which may be opened while this view is shown.
  createEffect(
    on(
      session.changes,
      (changes) => {
        if (timer !== undefined || JSON.stringify(changes) === JSON.stringify(taken())) return;
        setTaken(changes);
        setDraft(changes);
        setTroubles(noTroubles);
      },
      { defer: true },
    ),
  );
  onLeaving(() => {
    commitField();
    rescore();
  });
  const read = async (file: File | undefined) => {
    if (!file) return;
    try {
      change(changesOfText(await file.text()));
    } catch (cause) {
      setFileTrouble(`${file.name}: ${messageOf(cause)}`);
    }
  };
  const troubleAt = (field: string): string | null => troubles().get(field) ?? null;
  return { draft, taken, change, read, fileTrouble, troubles, troubleAt };
}

export type Draft = ReturnType<typeof createDraft>;

/** A field is committed when it loses the focus; one that is left with the page never would be. */
function commitField(): void {
  const field = document.activeElement;
  if (field instanceof HTMLInputElement) field.blur();
}

/** Calls when the view is left, and when the page is. */
function onLeaving(leave: () => void): void {
  onMount(() => window.addEventListener('pagehide', leave));
  onCleanup(() => {
    window.removeEventListener('pagehide', leave);
    leave();
  });
}
