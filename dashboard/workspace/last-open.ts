import type { Store } from './store.ts';

const lastOpen = 'rainledger last open';

/** The tab remembers its own workspace over a reload, the browser the last one over a restart. */
export function remember(store: Store, id: string): void {
  try {
    sessionStorage.setItem(lastOpen, id);
  } catch {
    // The browser's memory below does for one tab.
  }
  void store.setFact(lastOpen, id);
}

/** Id of what was open last in this tab, else in this browser; null where there is none. */
export async function lastOpened(store: Store): Promise<string | null> {
  try {
    const id = sessionStorage.getItem(lastOpen);
    if (id) return id;
  } catch {
    // As above.
  }
  return store.fact(lastOpen);
}
