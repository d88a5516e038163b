/** How the page's files are kept on this device. */
export type Kept =
  /** Not tried yet, or under way. */
  | 'not yet'
  /** All are here: the page opens without a network. */
  | 'here'
  /** The browser would not keep them: the page works with a network only. */
  | 'refused'
  /** Those of a newer version are here too, and wait for the reader's word. */
  | 'newer waits'
  /** Another tab took up a newer version: parts of this page that are not loaded yet are gone. */
  | 'newer in use';

export interface KeptPage {
  /** Takes up the newer version that waits, then calls `onRenewed`: the page must load anew. */
  readonly renew: () => void;
}

/** Path of the worker that vite-plugin-pwa writes, relative to the page. */
const script = './sw.js';

/** The message by which a worker made by workbox takes over at once (workbox, generateSW without skipWaiting). */
const takeOver = { type: 'SKIP_WAITING' };

/**
 * Has the browser keep every file of the page, and follows what becomes of it. A newer version never takes over by
 * itself: the page in use would lose the parts that it has not loaded yet.
 */
export function keepPage(
  container: ServiceWorkerContainer,
  tell: (kept: Kept) => void,
  onRenewed: () => void,
): KeptPage {
  const controlled = container.controller !== null;
  let asked = false;
  let registration: ServiceWorkerRegistration | undefined;

  container.addEventListener('controllerchange', () => {
    if (asked) onRenewed();
    else if (controlled) tell('newer in use');
  });
  const report = ({ state }: ServiceWorker): void => {
    if (state === 'installed' && registration?.active) tell('newer waits');
    if (state === 'activated' && !controlled) tell('here');
    // A newer one that could not be kept whole leaves the one in use as it is.
    if (state === 'redundant' && !registration?.active) tell('refused');
  };
  const follow = (worker: ServiceWorker | null): void =>
    worker?.addEventListener('statechange', () => report(worker));
  const begin = async (): Promise<void> => {
    await container.register(script, { updateViaCache: 'none' });
    registration = await container.getRegistration();
    if (registration?.active) tell('here');
    if (registration?.waiting) tell('newer waits');
    follow(registration?.installing ?? null);
    registration?.addEventListener('updatefound', () => follow(registration!.installing));
  };
  void begin().catch(() => tell('refused'));
  return {
    renew: () => {
      asked = true;
      registration?.waiting?.postMessage(takeOver);
    },
  };
}
