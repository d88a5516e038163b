import { createEffect, createSignal } from 'solid-js';
import type { Session } from '../state/session.ts';
import { type Kept, type KeptPage, keepPage } from './kept-page.ts';

/** One for the whole page, like the browser's own record of it. */
const [kept, setKept] = createSignal<Kept>('not yet');
let page: KeptPage | undefined;

export { kept };

/** Takes up the newer version that waits, and loads the page anew. */
export const renew = (): void => page?.renew();

/** Milliseconds from the first ranking during which the map and the table have the machine to themselves. */
const settling = 3_000;
const longestWait = 10_000;

/** Keeps the page for use without a network, once the first portfolio is ranked and the page is at rest. */
export function keepOffline({ phase }: Pick<Session, 'phase'>): void {
  const container = navigator.serviceWorker as ServiceWorkerContainer | undefined;
  if (!container) {
    setKept('refused');
    return;
  }
  createEffect(() => {
    if (phase().kind !== 'ready' || page || begun) return;
    begun = true;
    setTimeout(() => whenIdle(() => start(container)), settling);
  });
}

let begun = false;

const start = (container: ServiceWorkerContainer): void => {
  page = keepPage(container, setKept, () => location.reload());
};

/** Not every browser tells when it is idle. */
const whenIdle = (work: () => void): void => {
  if ('requestIdleCallback' in window) requestIdleCallback(work, { timeout: longestWait });
  else work();
};
