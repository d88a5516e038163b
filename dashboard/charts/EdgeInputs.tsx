import { onCleanup } from 'solid-js';
import type { Span } from './brush.ts';

/** How long keys may rest before what they moved is chosen, ms: one step of undo for a run of key presses. */
const REST = 500;

/**
 * The two ends of a brush as sliders, for keys and screen readers. They lie over the axis and are seen while they have
 * the focus; a pointer draws on the field instead.
 */
export function EdgeInputs(props: {
  /** What the axis measures. */
  readonly name: string;
  readonly bins: number;
  /** null: all of it. */
  readonly span: Span | null;
  /** The value at an edge, with its unit. */
  readonly words: (edge: number) => string;
  readonly upright?: boolean;
  readonly onPreview: (span: Span) => void;
  readonly onCommit: (span: Span) => void;
}) {
  let waiting: { readonly span: Span; readonly timer: ReturnType<typeof setTimeout> } | undefined;
  const span = () => props.span ?? { from: 0, to: props.bins };
  const settle = () => {
    if (!waiting) return;
    clearTimeout(waiting.timer);
    const { span } = waiting;
    waiting = undefined;
    props.onCommit(span);
  };
  const move = (next: Span) => {
    if (waiting) clearTimeout(waiting.timer);
    waiting = { span: next, timer: setTimeout(settle, REST) };
    props.onPreview(next);
  };
  onCleanup(settle);
  const from = (value: number) => move({ from: Math.min(value, span().to - 1), to: span().to });
  const to = (value: number) => move({ from: span().from, to: Math.max(value, span().from + 1) });
  return (
    <div class="edge-inputs" data-upright={props.upright || undefined}>
      <input
        type="range"
        min={0}
        max={props.bins}
        step={1}
        value={Math.round(span().from)}
        aria-label={`${props.name}, from`}
        aria-valuetext={span().from <= 0 ? 'open' : props.words(span().from)}
        onInput={(event) => {
          from(event.currentTarget.valueAsNumber);
          event.currentTarget.valueAsNumber = span().from;
        }}
        onBlur={settle}
      />
      <input
        type="range"
        min={0}
        max={props.bins}
        step={1}
        value={Math.round(span().to)}
        aria-label={`${props.name}, up to`}
        aria-valuetext={span().to >= props.bins ? 'open' : props.words(span().to)}
        onInput={(event) => {
          to(event.currentTarget.valueAsNumber);
          event.currentTarget.valueAsNumber = span().to;
        }}
        onBlur={settle}
      />
    </div>
  );
}
