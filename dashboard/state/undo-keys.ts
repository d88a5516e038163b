import { onCleanup } from 'solid-js';
import type { PageStore } from './store.ts';

/** Fields for text have an undo of their own; ticks, radio buttons and sliders have none. */
const isField = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  target.matches(
    'input:not([type=checkbox], [type=radio], [type=range]), textarea, [contenteditable]',
  );

/** Ctrl or Cmd with Z takes back the last change of filters or order; with Shift, or Ctrl+Y, it comes again. */
export function followUndoKeys({ undo, redo }: Pick<PageStore, 'undo' | 'redo'>): void {
  const onKey = (event: KeyboardEvent) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || isField(event.target)) return;
    const key = event.key.toLowerCase();
    const again = key === 'y' || (key === 'z' && event.shiftKey);
    const step = again ? redo() : key === 'z' ? undo() : null;
    if (!step) return;
    event.preventDefault();
    step();
  };
  addEventListener('keydown', onKey);
  onCleanup(() => removeEventListener('keydown', onKey));
}
