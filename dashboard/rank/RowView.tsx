import { For, type JSX, Show } from 'solid-js';
import { tierEnds } from '../building/facts.ts';
import { figureOf, type Value } from '../parts/format.ts';
import { Digits, OpenNumber } from '../parts/OpenNumber.tsx';
import { placeWords } from '../parts/place-words.ts';
import { reasonIn } from '../parts/reason.ts';
import { TierMark } from '../parts/TierMark.tsx';
import { tierOf } from '../parts/tier-of.ts';
import { openBuilding, select } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import type { RankRow } from '../state/rows.ts';
import { BuildingName } from './BuildingName.tsx';
import { needWords } from './need-words.ts';
import type { Ranking } from './ranking.ts';
import { tableColumns } from './reason-columns.ts';
import { Strip } from './Strip.tsx';

/** One building's row. It is drawn empty, at its place, while its texts are on their way. */
export function RowView(props: {
  readonly ranking: Ranking;
  readonly b: number | undefined;
  /** Position in the order shown, from 0. */
  readonly place: number;
  readonly top: number;
  readonly height: number;
}) {
  const desk = useDesk();
  const b = () => props.b ?? -1;
  const selected = () => desk.state.selected === b();
  return (
    <tr
      class="row"
      id={`row-${b()}`}
      aria-rowindex={props.place + 2}
      aria-selected={selected()}
      data-hovered={desk.hovered() === b() || undefined}
      style={{ transform: `translateY(${props.top}px)`, height: `${props.height}px` }}
      onClick={() => desk.apply(desk.state.opened ? openBuilding(b()) : select(b()))}
      onDblClick={() => desk.apply(openBuilding(b()))}
      onPointerEnter={() => desk.hover(b())}
      onPointerLeave={() => desk.hover(null)}
    >
      <Show when={props.ranking.row(b())} fallback={<td class="cell waiting" />}>
        {(row) => (
          <Cells
            row={row()}
            b={b()}
            reachable={selected()}
            wettingMax={props.ranking.opened.frame.wettingMax}
          />
        )}
      </Show>
    </tr>
  );
}

function Cells(props: {
  readonly row: RankRow;
  readonly b: number;
  readonly reachable: boolean;
  readonly wettingMax: number;
}) {
  const desk = useDesk();
  const tier = () => tierOf(props.row);
  const text = (column: string): string => String(props.row[column] ?? '');
  const number = (column: string) => (
    <OpenNumber
      value={props.row[column]}
      column={column}
      b={props.b}
      currency={props.row.currency}
      reachable={props.reachable}
    />
  );
  /** Low and high are those of the last scoring: while weights are tried they would stand beside another index. */
  const following = () => (desk.session.live() ? '…' : undefined);
  return (
    <>
      <Cell area="reason">
        <span class="reason" title={reasonIn(props.row, desk.state.units)}>
          {reasonIn(props.row, desk.state.units)}
        </span>
      </Cell>
      <Cell area="rank">{rankOf(props.row.rank)}</Cell>
      <Cell area="tier">
        <TierMark tier={tier()} /> {tier()}
        <TierEnds row={props.row} />
      </Cell>
      <Cell area="building">
        <BuildingName b={props.b} reachable={props.reachable}>
          {text('name') || text('building_id')}
        </BuildingName>
        <span class="building-place">{placeWords(props.row)}</span>
      </Cell>
      <Cell area="value">{number('insured_value')}</Cell>
      <Cell area="strip">
        <Strip row={props.row} wettingMax={props.wettingMax} />
      </Cell>
      <Cell area="index">{number('index')}</Cell>
      <Cell area="range">
        <Show when={props.row.index !== null && !desk.session.live()} fallback={following()}>
          {number('index_low')} – {number('index_high')}
        </Show>
      </Cell>
      <Cell area="wetting">{number('wetting_l_m2')}</Cell>
      <Cell area="rain">{number('rain_mm')}</Cell>
      <Cell area="state">{text('drainage_state') || 'no record'}</Cell>
      <Cell area="need">
        <span class="line">{needWords(props.row.need_code_now, 'code now')}</span>
        <span class="line">{needWords(props.row.need_practice, 'practice')}</span>
      </Cell>
    </>
  );
}

/** Where the tier may move to with what is not known, small under the tier. */
function TierEnds(props: { readonly row: RankRow }) {
  const ends = () => tierEnds(props.row);
  return (
    <Show when={ends().length > 0}>
      <span class="tier-ends">
        <For each={ends()}>
          {(words, i) => (
            <>
              <span>{i() < ends().length - 1 ? `${words},` : words}</span>{' '}
            </>
          )}
        </For>
      </span>
    </Show>
  );
}

const rankOf = (rank: Value): JSX.Element =>
  typeof rank === 'number' ? <Digits figure={figureOf(rank, 'count', 'metric')} /> : '–';

function Cell(props: { readonly area: string; readonly children: JSX.Element }) {
  return (
    <td
      class={`cell at-${props.area}`}
      aria-colindex={tableColumns.findIndex((column) => column.area === props.area) + 1}
    >
      {props.children}
    </td>
  );
}
