import { createSignal, onCleanup } from 'solid-js';
import type { SettingsChanges } from '../../analysis/settings.ts';
import type { Session } from '../state/session.ts';
import { changesOfText, troubleOf } from './draft.ts';

/** Milliseconds without a further change after which the ranking is made anew. */
const pause = 300;

/** Why a change was not taken, and beside which field to say so. */
interface Trouble {
  readonly where: string;
  readonly message: string;
}

/** The place of what concerns a file, not a field. */
export const ofFile = 'file';

/** The settings as they are being changed; what can be taken is scored after a pause. Call within a component. */
export function createDraft(session: Session) {
  const [draft, setDraft] = createSignal<SettingsChanges>(session.changes());
  const [trouble, setTrouble] = createSignal<Trouble | null>(null);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const rescore = () => {
    timer = undefined;
    void session.rescore(draft());
  };
  // A change still waiting when the view is left is not lost.
  onCleanup(() => {
    if (timer === undefined) return;
    clearTimeout(timer);
    rescore();
  });
  const change = (where: string, changes: SettingsChanges) => {
    setDraft(changes);
    const message = troubleOf(changes);
    // What was wrong before another field was changed is still said beside its own.
    if (message === null) setTrouble(null);
    else if (trouble()?.message !== message) setTrouble({ where, message });
    clearTimeout(timer);
    timer = message === null ? setTimeout(rescore, pause) : undefined;
  };
  const read = async (file: File | undefined) => {
    if (!file) return;
    try {
      change(ofFile, changesOfText(await file.text()));
    } catch (cause) {
      const message = `${file.name}: ${cause instanceof Error ? cause.message : cause}`;
      setTrouble({ where: ofFile, message });
    }
  };
  const troubleAt = (where: string): string | null => {
    const found = trouble();
    return found?.where === where ? found.message : null;
  };
  return { draft, change, read, trouble, troubleAt };
}

export type Draft = ReturnType<typeof createDraft>;
