import { type Accessor, createSignal } from 'solid-js';
import { messageOf } from './message-of.ts';

/** Files that a button writes, one at a time. */
export interface Saving {
  readonly busy: Accessor<boolean>;
  /** Why the last one could not be written; null where it was. */
  readonly failed: Accessor<string | null>;
  readonly run: (write: () => Promise<void>) => Promise<void>;
}

export function createSaving(): Saving {
  const [busy, setBusy] = createSignal(false);
  const [failed, setFailed] = createSignal<string | null>(null);
  const run: Saving['run'] = async (write) => {
    setBusy(true);
    try {
      await write();
      setFailed(null);
    } catch (error) {
      setFailed(messageOf(error));
    } finally {
      setBusy(false);
    }
  };
  return { busy, failed, run };
}
