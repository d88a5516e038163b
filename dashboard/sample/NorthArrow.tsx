import { Show } from 'solid-js';
import { facing } from '../parts/format.ts';

const radius = 38;

/** North is up; the wall as a thick line, the direction it faces as an arrow out of it. */
export function NorthArrow(props: { readonly azimuth: number | string | null }) {
  const degrees = () => (typeof props.azimuth === 'number' ? props.azimuth : null);
  return (
    <figure class="north-arrow">
      <svg viewBox="-62 -66 124 132" role="img" aria-label={`Wall faces ${facing(props.azimuth)}`}>
        <circle r={radius} />
        <path class="north" d="M0 -58L5 -44H-5Z" />
        <text y="-34" text-anchor="middle" dy="6">
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
