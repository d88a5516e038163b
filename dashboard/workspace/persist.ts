import type { Store } from './store.ts';

/** How firmly the browser keeps what was saved. */
export type Firmness =
  | { readonly firm: true }
  /** The browser may remove it; the sentence says so and what to do. */
  | { readonly firm: false; readonly message: string };

const mayBeRemoved =
  'Saved in this browser, which may remove it when the disk runs short, and removes it when its site data are cleared or a private window is closed. Save the workspace to a file as well.';

const asked = 'asked to persist';

/**
 * Whether what is saved is there to stay. Asks the browser for it the first time only, since some browsers ask the
 * user: call it after the user has saved something of their own, not when the page opens.
 */
export async function askToPersist(store: Store): Promise<Firmness> {
  const storage = navigator.storage as StorageManager | undefined;
  try {
    if (await storage?.persisted?.()) return { firm: true };
    if ((await store.fact(asked)) === null) {
      await store.setFact(asked, 'yes');
      if (await storage?.persist?.()) return { firm: true };
    }
  } catch {
    // A browser that refuses the question has answered it.
  }
  return { firm: false, message: mayBeRemoved };
}
