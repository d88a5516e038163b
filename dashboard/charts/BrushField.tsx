import { type JSX, Show } from 'solid-js';
import { type Box, fieldOf, rectPath } from './box.ts';
import type { Place, Span } from './brush.ts';
import type { Brush } from './create-brush.ts';

interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The covered part of the field, px; null where all of it is. */
function coverRect(brush: Brush, box: Box, bins: Place): Rect | null {
  const { x, y } = brush.cover();
  if (!x && !y) return null;
  const { width, height } = fieldOf(box);
  const across = part(x, bins.x, box.left, width);
  const down = part(y, bins.y, box.top, height);
  return { x: across.at, y: down.at, width: across.length, height: down.length };
}

const part = (span: Span | null, bins: number, start: number, length: number) => ({
  at: start + ((span?.from ?? 0) / bins) * length,
  length: (((span?.to ?? bins) - (span?.from ?? 0)) / bins) * length,
});

/** The drawing of a chart that is brushed: what is covered lies on the highlighter, what is not under a veil of paper. */
export function BrushField(props: {
  readonly name: string;
  readonly box: Box;
  readonly bins: Place;
  readonly brush: Brush;
  /** What lies under the pointer, in words. */
  readonly pointed: string | undefined;
  readonly children: JSX.Element;
}) {
  const cover = () => coverRect(props.brush, props.box, props.bins);
  return (
    <svg
      class="brush-field"
      viewBox={`0 0 ${props.box.width} ${props.box.height}`}
      role="img"
      aria-label={props.name}
      onPointerDown={props.brush.onPointerDown}
      onPointerMove={props.brush.onPointerMove}
      onPointerUp={props.brush.onPointerUp}
      onPointerCancel={props.brush.onPointerCancel}
      onPointerLeave={props.brush.onPointerLeave}
    >
      <Show when={cover()}>{(rect) => <rect class="cover-ground" {...rect()} />}</Show>
      {props.children}
      <text class="pointed" x={props.box.width - props.box.right} y={10} text-anchor="end">
        {props.pointed}
      </text>
      <rect class="brush-ground" {...wholeField(props.box)} />
      <Show when={cover()}>
        {(rect) => (
          <>
            <path class="veil" fill-rule="evenodd" d={around(props.box, rect())} />
            <rect class="cover" {...rect()} />
            <Show when={props.brush.cover().x}>
              <rect class="grip-across" {...edge(rect(), 'x', 0)} />
              <rect class="grip-across" {...edge(rect(), 'x', 1)} />
            </Show>
            <Show when={props.brush.cover().y}>
              <rect class="grip-upright" {...edge(rect(), 'y', 0)} />
              <rect class="grip-upright" {...edge(rect(), 'y', 1)} />
            </Show>
          </>
        )}
      </Show>
    </svg>
  );
}

const wholeField = (box: Box): Rect => ({ x: box.left, y: box.top, ...fieldOf(box) });

function around(box: Box, { x, y, width, height }: Rect): string {
  const field = wholeField(box);
  return rectPath(field.x, field.y, field.width, field.height) + rectPath(x, y, width, height);
}

/** The strip along an edge in which the pointer grips it. */
const edge = ({ x, y, width, height }: Rect, axis: 'x' | 'y', end: 0 | 1): Rect =>
  axis === 'x'
    ? { x: x + end * width - 6, y, width: 12, height }
    : { x, y: y + end * height - 6, width, height: 12 };
