import { Show } from 'solid-js';
import type { Value } from '../parts/format.ts';
import type { RankRow } from '../state/rows.ts';
import {
  adequacyScale,
  indexScale,
  strip,
  susceptibilityScale,
  wettingScale,
} from './strip-scale.ts';

const num = (value: Value): number | null => (typeof value === 'number' ? value : null);
const mid = strip.height / 2;

/**
 * A wall read from the outside in: how much rain reaches it, how much of the drainage asked for it has, how readily
 * the sheathing decays, and the index they come to, from low to high. What is not on record is drawn in dashes.
 */
export function Strip(props: { readonly row: RankRow; readonly wettingMax: number }) {
  const value = (column: string) => num(props.row[column]);
  return (
    <svg class="strip" viewBox={`0 0 ${strip.width} ${strip.height}`} aria-hidden="true">
      <Show when={value('index') !== null} fallback={<NotScored />}>
        <Wetting litres={value('wetting_l_m2') ?? 0} max={props.wettingMax} />
        <Drains adequacy={value('adequacy')} known={props.row.drainage_state !== 'no record'} />
        <Sheathing s={value('susceptibility')} known={props.row.sheathing !== null} />
        <Index low={value('index_low')} mean={value('index') ?? 0} high={value('index_high')} />
      </Show>
    </svg>
  );
}

function NotScored() {
  return <line class="strip-none" x1={strip.wetting.from} x2={strip.index.to} y1={mid} y2={mid} />;
}

function Wetting(props: { readonly litres: number; readonly max: number }) {
  const { from, to } = strip.wetting;
  return (
    <g class="strip-wetting">
      <rect class="track" x={from} y={mid - 7} width={to - from} height={14} />
      <rect
        class="bar"
        x={from}
        y={mid - 7}
        width={wettingScale(props.max)(props.litres)}
        height={14}
      />
      <line class="wall" x1={to + 3} x2={to + 3} y1={4} y2={strip.height - 4} />
    </g>
  );
}

function Drains(props: { readonly adequacy: number | null; readonly known: boolean }) {
  const { from, to } = strip.drains;
  return (
    <g class="strip-drains" classList={{ unknown: !props.known }}>
      <rect
        class="bar"
        x={from}
        y={mid - 7}
        width={adequacyScale(props.adequacy ?? 0)}
        height={14}
      />
      <rect class="asked" x={from} y={mid - 7} width={to - from} height={14} />
    </g>
  );
}

function Sheathing(props: { readonly s: number | null; readonly known: boolean }) {
  const { from, to } = strip.sheathing;
  return (
    <g class="strip-sheathing" classList={{ unknown: !props.known }}>
      <rect
        class="bar"
        x={from}
        y={mid - 7}
        width={susceptibilityScale(props.s ?? 0)}
        height={14}
      />
      <rect class="asked" x={from} y={mid - 7} width={to - from} height={14} />
    </g>
  );
}

function Index(props: {
  readonly low: number | null;
  readonly mean: number;
  readonly high: number | null;
}) {
  const x = indexScale;
  return (
    <g class="strip-index">
      <line class="axis" x1={x(0)} x2={x(100)} y1={mid + 9} y2={mid + 9} />
      <line class="tick" x1={x(0)} x2={x(0)} y1={mid + 6} y2={mid + 9} />
      <line class="tick" x1={x(50)} x2={x(50)} y1={mid + 6} y2={mid + 9} />
      <line class="tick" x1={x(100)} x2={x(100)} y1={mid + 6} y2={mid + 9} />
      <line
        class="whisker"
        x1={x(props.low ?? props.mean)}
        x2={x(props.high ?? props.mean)}
        y1={mid - 2}
        y2={mid - 2}
      />
      <circle class="dot" cx={x(props.mean)} cy={mid - 2} r={3.5} />
    </g>
  );
}

/** The legend in the heading: the same lanes, with words. */
export function StripLegend(props: { readonly wettingMax: string }) {
  const { wetting, drains, sheathing, index } = strip;
  return (
    <svg class="strip strip-legend" viewBox={`0 0 ${strip.width} 30`} aria-hidden="true">
      <text x={wetting.from} y={11}>
        wetting
      </text>
      <text x={wetting.from} y={26} class="soft">
        to {props.wettingMax}
      </text>
      <text x={drains.from} y={11}>
        drains
      </text>
      <text x={drains.from} y={26} class="soft">
        of asked
      </text>
      <text x={sheathing.from} y={11}>
        sheathing
      </text>
      <text x={sheathing.from} y={26} class="soft">
        decays
      </text>
      <text x={index.from} y={11}>
        index
      </text>
      <text x={index.from} y={26} class="soft">
        0
      </text>
      <text x={index.to} y={26} text-anchor="end" class="soft">
        100
      </text>
    </svg>
  );
}
