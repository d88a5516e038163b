import { Show } from 'solid-js';
import { facing } from '../parts/format.ts';

const radius = 38;

/** North is up; the wall as a thick line, the direction it faces as an arrow out of it. */
export function NorthArrow(props: { readonly azimuth: number | string | null }) {
  const degrees = () => (typeof props.azimuth === 'number' ? props.azimuth : null);
  return (
    <figure class="north-arrow">
      <svg viewBox="-56 -74 112 116" role="img" aria-label={`Wall faces ${facing(props.azimuth)}`}>
        <circle r={radius} />
        <path class="north" d="M0 -54L6 -39H-6Z" />
        <text y="-58" text-anchor="middle">
          N
        </text>
        <Show when={degrees() !== null}>
          <g transform={`rotate(${degrees()})`}>
            <path class="wall-line" d="M-24 6H24" />
            <path class="faces-line" d="M0 6V-14" />
            <path class="faces-head" d="M0 -24L6 -12H-6Z" />
          </g>
        </Show>
      </svg>
      <figcaption>
        {degrees() === null ? 'Direction: no record' : `Wall faces ${facing(props.azimuth)}`}
      </figcaption>
    </figure>
  );
}
