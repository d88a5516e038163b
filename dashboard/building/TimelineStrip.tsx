import { scaleLinear } from 'd3';
import { createMemo, For, Show } from 'solid-js';
import type { EditionAnswer } from '../../analysis/session-types.ts';
import { answerKind, windowOf, yearsOf } from './timeline-shape.ts';

const width = 760;
const left = 124;
const right = width - 16;
const top = 34;
const rowHeight = 27;

/** Editions as marks on a line of years, a row for each code. Its words stand in the table beside it. */
export function TimelineStrip(props: {
  readonly editions: readonly EditionAnswer[];
  readonly installed: number | null;
  readonly lag: number;
}) {
  const codes = createMemo(() => [...new Set(props.editions.map(({ code }) => code))]);
  const years = createMemo(() => yearsOf(props.editions, props.installed, props.lag));
  const stood = () => windowOf(props.editions, props.installed, props.lag);
  const x = (year: number) => scaleLinear(years(), [left, right]).clamp(true)(year);
  const ticks = () => scaleLinear(years(), [left, right]).ticks(8);
  const y = (code: string) => top + codes().indexOf(code) * rowHeight;
  const height = () => top - 8 + codes().length * rowHeight;
  return (
    <svg class="timeline-strip" viewBox={`0 0 ${width} ${height()}`} aria-hidden="true">
      <Show when={stood()}>
        {(span) => (
          <rect
            class="stood"
            x={x(span()[0]) - 7}
            width={x(span()[1]) - x(span()[0]) + 7}
            y={18}
            height={height() - 18}
          />
        )}
      </Show>
      <For each={ticks()}>
        {(year) => (
          <>
            <line class="grid" x1={x(year)} x2={x(year)} y1={18} y2={height()} />
            <text class="year" x={x(year)} y={12}>
              {year}
            </text>
          </>
        )}
      </For>
      <Show when={props.installed}>
        {(year) => <line class="built" x1={x(year())} x2={x(year())} y1={16} y2={height()} />}
      </Show>
      <For each={codes()}>
        {(code) => (
          <text x={0} y={y(code) + 4}>
            {code.startsWith('legacy') ? 'older codes' : code}
          </text>
        )}
      </For>
      <For each={props.editions}>
        {(edition) => <Mark edition={edition} x={x} y={y(edition.code)} />}
      </For>
    </svg>
  );
}

function Mark(props: {
  readonly edition: EditionAnswer;
  readonly x: (year: number) => number;
  readonly y: number;
}) {
  const of = () => props.edition;
  return (
    <g
      class={`edition ${answerKind(of().answer)}`}
      data-apart={(!of().stoodThen && !of().standsNow) || undefined}
    >
      <Show
        when={of().from < of().to}
        fallback={<circle cx={props.x(of().from)} cy={props.y} r={of().standsNow ? 6.5 : 4.5} />}
      >
        <line x1={props.x(of().from)} x2={props.x(of().to)} y1={props.y} y2={props.y} />
      </Show>
      <Show when={of().standsNow}>
        <text class="now" x={props.x(of().from)} y={props.y + 17}>
          now
        </text>
      </Show>
    </g>
  );
}
