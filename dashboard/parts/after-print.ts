import { onCleanup } from 'solid-js';

/** Calls back when the browser is done with printing, as long as the component stands. Call within a component. */
export function afterPrint(done: () => void): void {
  window.addEventListener('afterprint', done);
  onCleanup(() => window.removeEventListener('afterprint', done));
}
