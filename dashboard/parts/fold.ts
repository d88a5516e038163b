import { createSignal, onCleanup } from 'solid-js';

/** A `details` that folds back when the reader points elsewhere or presses Escape. */
export function createFold() {
  const [open, setOpen] = createSignal(false);
  let root: HTMLDetailsElement | undefined;
  const outside = (event: PointerEvent) => {
    if (!root?.contains(event.target as Node)) setOpen(false);
  };
  document.addEventListener('pointerdown', outside);
  onCleanup(() => document.removeEventListener('pointerdown', outside));
  return {
    open,
    attach: (element: HTMLDetailsElement) => {
      root = element;
    },
    onToggle: (event: { currentTarget: HTMLDetailsElement }) => setOpen(event.currentTarget.open),
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key !== 'Escape' || !open()) return;
      event.stopPropagation();
      setOpen(false);
      root?.querySelector('summary')?.focus();
    },
  };
}
