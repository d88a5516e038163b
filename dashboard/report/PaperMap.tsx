import { createUniqueId, For, type JSX, Show } from 'solid-js';
import { type Tier, tiers } from '../../analysis/session-types.ts';
import { tierMarks } from '../map/tier-marks.ts';
import { type MapMark, markSide } from './map-marks.ts';
import type { Picture } from './picture.ts';

/** A rain sheet on paper: shading on land only, isohyets with their figures, marks on top. */
export function PaperMap(props: {
  readonly picture: Picture;
  readonly label: string;
  readonly children: JSX.Element;
}) {
  const onLand = createUniqueId();
  const frame = () => props.picture.frame;
  return (
    <svg
      class="paper-map"
      viewBox={`0 0 ${frame().width} ${frame().height}`}
      role="img"
      aria-label={props.label}
    >
      <clipPath id={onLand}>
        <path d={props.picture.land} />
      </clipPath>
      <rect class="water" width={frame().width} height={frame().height} />
      <path class="land" d={props.picture.land} />
      <g clip-path={`url(#${onLand})`}>
        <For each={props.picture.rain.shades}>
          {({ d, fill }) => <path class="shade" d={d} fill={fill} fill-rule="evenodd" />}
        </For>
        <For each={props.picture.rain.lines}>
          {({ d, main }) => <path class="isohyet" classList={{ main }} d={d} />}
        </For>
      </g>
      <path class="water" d={props.picture.lakes} />
      <path class="coast" d={props.picture.land} />
      <path class="border" d={props.picture.states} />
      <path class="border country" d={props.picture.countries} />
      <Words picture={props.picture} />
      {props.children}
      <ScaleBar picture={props.picture} />
      <rect class="frame" x="1" y="1" width={frame().width - 2} height={frame().height - 2} />
    </svg>
  );
}

function Words(props: { readonly picture: Picture }) {
  return (
    <>
      <For each={props.picture.names}>
        {({ name, kind, x, y }) => (
          <g class={`name ${kind}`}>
            <Show
              when={kind === 'city'}
              fallback={
                <text x={x} y={y} text-anchor="middle">
                  {name}
                </text>
              }
            >
              <circle cx={x} cy={y} r="1.6" />
              <text x={x + 4} y={y + 3}>
                {name}
              </text>
            </Show>
          </g>
        )}
      </For>
      <For each={props.picture.rain.lines}>
        {({ label, main, at }) => (
          <Show when={at}>
            {(place) => (
              <text class="figure" classList={{ main }} x={place()[0]} y={place()[1] + 3}>
                {label}
              </text>
            )}
          </Show>
        )}
      </For>
    </>
  );
}

function ScaleBar(props: { readonly picture: Picture }) {
  const bottom = () => props.picture.frame.height - 9;
  return (
    <g class="scale-bar">
      <path d={`M10 ${bottom() - 4}v4h${props.picture.bar.width.toFixed(1)}v-4`} />
      <text x={14 + props.picture.bar.width} y={bottom() + 1}>
        {props.picture.bar.words}
      </text>
    </g>
  );
}

/** Buildings by tier mark, those of the foremost tier on top. */
export function Marks(props: { readonly picture: Picture; readonly marks: readonly MapMark[] }) {
  return (
    <For each={props.marks}>
      {({ longitude, latitude, tier, n }) => (
        <Show when={props.picture.frame.place(longitude, latitude)}>
          {(at) => <Mark at={at()} tier={tiers[tier] ?? 'Not scored'} side={markSide(n)} />}
        </Show>
      )}
    </For>
  );
}

/** One mark, haloed so that it stands out from shading and from other marks. */
export function Mark(props: {
  readonly at: readonly [x: number, y: number];
  readonly tier: Tier;
  readonly side: number;
}) {
  const corner = (i: 0 | 1) => (props.at[i] - props.side / 2).toFixed(1);
  return (
    <path
      class="mark"
      d={tierMarks[props.tier].path}
      fill={tierMarks[props.tier].light}
      fill-rule="evenodd"
      transform={`translate(${corner(0)} ${corner(1)}) scale(${(props.side / 24).toFixed(3)})`}
    />
  );
}
