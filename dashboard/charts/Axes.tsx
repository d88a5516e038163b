import { For } from 'solid-js';
import { type Box, fieldOf, type Tick } from './box.ts';

/** Ticks with their figures, faint lines across, and what the axes measure. */
export function Axes(props: {
  readonly box: Box;
  readonly x: readonly Tick[];
  readonly y: readonly Tick[];
  readonly across: string;
  readonly upward: string;
}) {
  const foot = () => props.box.top + fieldOf(props.box).height;
  const end = () => props.box.width - props.box.right;
  return (
    <g class="axes">
      <For each={props.y}>
        {({ at, word }) => (
          <>
            <path class="tick-line" d={`M${props.box.left} ${at}H${end()}`} />
            <text x={props.box.left - 5} y={at + 4} text-anchor="end">
              {word}
            </text>
          </>
        )}
      </For>
      <For each={props.x}>
        {({ at, word }) => (
          <>
            <path class="base-line" d={`M${at} ${foot()}v4`} />
            <text x={at} y={foot() + 15} text-anchor="middle">
              {word}
            </text>
          </>
        )}
      </For>
      <path class="base-line" d={`M${props.box.left} ${foot()}H${end()}`} />
      <text class="axis-name" x={end()} y={foot() + 28} text-anchor="end">
        {props.across}
      </text>
      <text class="axis-name" x={0} y={10}>
        {props.upward}
      </text>
    </g>
  );
}
