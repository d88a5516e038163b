import { createSignal, type JSX, onCleanup, Show } from 'solid-js';
import './fold.css';

/** A `details` that folds back when the reader points elsewhere or presses Escape. */
export function Fold(props: {
  readonly class: string;
  readonly summary: JSX.Element;
  /** Name of the summary where it is a drawing. */
  readonly label?: string;
  /** Something in it is chosen. */
  readonly active?: boolean;
  /** Made when it is unfolded: for what asks the analysis or is long. */
  readonly late?: boolean;
  readonly onOpen?: () => void;
  readonly children: JSX.Element;
}) {
  const [open, setOpen] = createSignal(false);
  let root: HTMLDetailsElement | undefined;
  const outside = (event: PointerEvent) => {
    if (!root?.contains(event.target as Node)) setOpen(false);
  };
  document.addEventListener('pointerdown', outside);
  onCleanup(() => document.removeEventListener('pointerdown', outside));
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Escape' || !open()) return;
    event.stopPropagation();
    setOpen(false);
    root?.querySelector('summary')?.focus();
  };
  return (
    <details
      class={props.class}
      ref={root}
      open={open()}
      onToggle={(event) => {
        setOpen(event.currentTarget.open);
        if (open()) props.onOpen?.();
      }}
      onKeyDown={onKeyDown}
      data-active={props.active || undefined}
    >
      <summary aria-label={props.label} title={props.label}>
        {props.summary}
      </summary>
      <Show when={!props.late || open()}>{props.children}</Show>
    </details>
  );
}
