import type { ScaleLinear } from 'd3';
import { For, Show } from 'solid-js';
import { whisker } from './plot.ts';

const mid = whisker.height / 2 - 3;
const base = whisker.height - 5;

/** An interval from low to high with its estimate, on an axis that is the same in every row. The words stand beside it. */
export function Whisker(props: {
  readonly scale: ScaleLinear<number, number>;
  readonly low: number;
  /** Null where there is nothing but bounds. */
  readonly middle: number | null;
  readonly high: number;
}) {
  const ends = () => props.scale.domain();
  const ticks = () => [ends()[0]!, (ends()[0]! + ends()[1]!) / 2, ends()[1]!];
  return (
    <svg class="whisker" viewBox={`0 0 ${whisker.width} ${whisker.height}`} aria-hidden="true">
      <line class="axis" x1={whisker.from} x2={whisker.to} y1={base} y2={base} />
      <For each={ticks()}>
        {(tick) => (
          <line
            class="axis"
            x1={props.scale(tick)}
            x2={props.scale(tick)}
            y1={base - 3}
            y2={base}
          />
        )}
      </For>
      <line
        class="span"
        x1={props.scale(props.low)}
        x2={props.scale(props.high)}
        y1={mid}
        y2={mid}
      />
      <Show when={props.middle !== null}>
        <circle class="dot" cx={props.scale(props.middle ?? 0)} cy={mid} r={3.5} />
      </Show>
    </svg>
  );
}

/** The ends of the axis, in the heading over it. */
export const ScaleWords = (props: { readonly low: string; readonly high: string }) => (
  <span class="scale-words">
    <span>{props.low}</span>
    <span class="unseen">to</span>
    <span>{props.high}</span>
  </span>
);
