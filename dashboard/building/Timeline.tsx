import { scaleLinear } from 'd3';
import { createMemo, For, Show } from 'solid-js';
import type { BuildingDetail, EditionAnswer } from '../../analysis/session-types.ts';
import { plainWord } from '../parts/words.ts';
import { needInFull } from '../rank/need-words.ts';
import './timeline.css';

const width = 760;
const left = 150;
const rowHeight = 24;
const firstYear = 1990;

/** What the editions asked of the wall that sets the index: when it was built, and today. */
export function Timeline(props: { readonly detail: BuildingDetail }) {
  const editions = () => props.detail.timeline;
  const installed = () => {
    const worst = props.detail.walls.find(({ wall_id }) => wall_id === props.detail.row.wall_id);
    return typeof worst?.installed === 'number' ? worst.installed : null;
  };
  return (
    <section class="timeline" aria-label="What was asked then and what is asked now">
      <h3>Asked then, asked now</h3>
      <Show
        when={editions().length > 0}
        fallback={<p>Which code applies cannot be told: the region is not on record.</p>}
      >
        <p class="soft">
          Wall {props.detail.row.wall_id},{' '}
          {installed() === null ? 'year not on record' : `built ${installed()}`}. Our reading of
          model codes, not of the law that applied; local codes and a licensed professional decide.
        </p>
        <Strip editions={editions()} installed={installed()} />
        <Answers editions={editions()} />
      </Show>
    </section>
  );
}

const shapes = { asks: 'asks', 'does not': 'quiet', 'cannot t': 'open' } as const;
const shapeOf = (answer: string): string =>
  shapes[answer.slice(0, answer.startsWith('asks') ? 4 : 8) as keyof typeof shapes] ?? 'open';

function Strip(props: {
  readonly editions: readonly EditionAnswer[];
  readonly installed: number | null;
}) {
  const codes = createMemo(() => [...new Set(props.editions.map(({ code }) => code))]);
  const latest = () => Math.max(2026, ...props.editions.map(({ to }) => to));
  const x = () => scaleLinear([firstYear, latest() + 1], [left, width - 12]);
  const y = (code: string) => 26 + codes().indexOf(code) * rowHeight;
  const height = () => 34 + codes().length * rowHeight;
  const from = (edition: EditionAnswer) => x()(Math.max(firstYear, edition.from));
  const past = (edition: EditionAnswer) => edition.from < edition.to;
  return (
    <svg class="timeline-strip" viewBox={`0 0 ${width} ${height()}`} aria-hidden="true">
      <For each={x().ticks(8)}>
        {(year) => (
          <g>
            <line class="grid" x1={x()(year)} x2={x()(year)} y1={16} y2={height()} />
            <text class="year" x={x()(year)} y={10}>
              {year}
            </text>
          </g>
        )}
      </For>
      <Show when={props.installed !== null && (props.installed ?? 0) >= firstYear}>
        <line
          class="built"
          x1={x()(props.installed ?? firstYear)}
          x2={x()(props.installed ?? firstYear)}
          y1={12}
          y2={height()}
        />
      </Show>
      <For each={codes()}>
        {(code) => (
          <text class="code" x={0} y={y(code) + 4}>
            {code === 'legacy-us' || code === 'legacy-ca' ? 'older codes' : code}
          </text>
        )}
      </For>
      <For each={props.editions}>
        {(edition) => (
          <g
            class={`edition ${shapeOf(edition.answer)}`}
            data-then={edition.stoodThen || undefined}
          >
            <Show
              when={past(edition)}
              fallback={
                <circle cx={from(edition)} cy={y(edition.code)} r={edition.standsNow ? 7 : 5} />
              }
            >
              <line x1={left} x2={x()(edition.to)} y1={y(edition.code)} y2={y(edition.code)} />
            </Show>
            <Show when={edition.standsNow}>
              <text class="now" x={from(edition)} y={y(edition.code) + 18}>
                now
              </text>
            </Show>
          </g>
        )}
      </For>
    </svg>
  );
}

function Answers(props: { readonly editions: readonly EditionAnswer[] }) {
  const when = ({ stoodThen, standsNow }: EditionAnswer): string =>
    [stoodThen ? 'may have been in force then' : '', standsNow ? 'read as today’s' : '']
      .filter(Boolean)
      .join('; ');
  const shown = () => props.editions.filter(({ stoodThen, standsNow }) => stoodThen || standsNow);
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">Edition</th>
          <th scope="col">When</th>
          <th scope="col">Answer</th>
          <th scope="col">Asks for</th>
        </tr>
      </thead>
      <tbody>
        <For each={shown()}>
          {(edition) => (
            <tr>
              <th scope="row">{edition.label}</th>
              <td>{when(edition)}</td>
              <td>{needInFull(edition.answer)}</td>
              <td>{edition.asks ? plainWord(edition.asks) : ''}</td>
            </tr>
          )}
        </For>
      </tbody>
    </table>
  );
}
