import { createMemo, For, type JSX, Show } from 'solid-js';
import { show } from '../../parts/format.ts';
import { OpenNumber } from '../../parts/OpenNumber.tsx';
import { reasonIn } from '../../parts/reason.ts';
import { TierMark } from '../../parts/TierMark.tsx';
import { tierOf } from '../../parts/tier-of.ts';
import { plainWord } from '../../parts/words.ts';
import { openBuilding, select, sortBy } from '../../state/changes.ts';
import { useDesk } from '../../state/desk.ts';
import type { RankRow } from '../../state/rows.ts';
import { BuildingName } from '../BuildingName.tsx';
import { needInFull } from '../need-words.ts';
import type { Ranking } from '../ranking.ts';
import { createRowWindow } from '../row-window.ts';
import { SheetPick } from '../SheetPick.tsx';
import { ColumnFilter } from './ColumnFilter.tsx';
import { copySelected } from './copy.ts';
import { chosenColumns, headingOf, type PlainColumn, stayingColumns } from './plain-columns.ts';
import './plain.css';

/** As in plain.css, px. */
const rowHeight = 30;
const headHeight = 46;

/** A column at its place; `left` where it is pinned, px from the edge. */
type Placed = PlainColumn & { readonly left?: number };

/** The ranking in plain cells: columns of the reader's choice, the pinned ones in place while the others scroll. */
export function PlainTable(props: {
  readonly ranking: Ranking;
  /** Of the table as it is laid out, px. */
  readonly width: number;
}) {
  const desk = useDesk();
  const rows = createRowWindow(
    () => props.ranking,
    () => rowHeight,
    () => headHeight,
  );
  const order = () => props.ranking.order();
  const columns = createMemo(() => placed(desk.state.columns, desk.state.pinned, props.width));
  const template = () =>
    columns()
      .map(({ width }) => `${width}px`)
      .join(' ');
  const width = () => `${columns().reduce((sum, column) => sum + column.width, 0)}px`;
  return (
    <>
      <table
        class="ranking plain"
        // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: the ARIA grid pattern, rows chosen by key
        role="grid"
        tabIndex={0}
        aria-label="Ranking of buildings, in columns"
        aria-rowcount={order().length + 1}
        aria-colcount={columns().length}
        aria-activedescendant={rows.active()}
        aria-busy={props.ranking.pending()}
        ref={rows.attach}
        onKeyDown={rows.onKey}
        onCopy={(event) => copySelected(event, props.ranking, desk.state)}
      >
        <thead class="heading-group">
          <tr
            class="plain-row"
            aria-rowindex={1}
            style={{ 'grid-template-columns': template(), width: width() }}
          >
            <For each={columns()}>{(column, i) => <Heading column={column} at={i() + 1} />}</For>
          </tr>
        </thead>
        <tbody class="rows" style={{ height: `${rows.total()}px`, width: width() }}>
          <For each={rows.items()}>
            {(item) => (
              <PlainRow
                ranking={props.ranking}
                b={order()[rows.placeOf(item)] ?? -1}
                place={rows.placeOf(item)}
                top={rows.topOf(item)}
                columns={columns()}
                template={template()}
              />
            )}
          </For>
        </tbody>
      </table>
      <SheetPick rows={order().length} sheet={rows.sheet()} onPick={rows.setSheet} />
    </>
  );
}

function placed(
  columns: readonly string[],
  pinned: readonly string[],
  tableWidth: number,
): readonly Placed[] {
  const chosen = chosenColumns(columns, pinned);
  let left = 0;
  const kept = stayingColumns(chosen.pinned, tableWidth).map((column) => {
    const at = left;
    left += column.width;
    return { ...column, left: at };
  });
  return [...kept, ...chosen.pinned.slice(kept.length), ...chosen.free];
}

const pin = (column: Placed): JSX.CSSProperties =>
  column.left === undefined ? {} : { left: `${column.left}px` };

function Heading(props: { readonly column: Placed; readonly at: number }) {
  const { state, apply } = useDesk();
  const name = () => props.column.name;
  const sorted = () => {
    if (!props.column.sorts) return undefined;
    if (state.sort?.column !== name()) return 'none';
    return state.sort.descending ? 'descending' : 'ascending';
  };
  return (
    <th
      scope="col"
      class="plain-cell"
      classList={{ pinned: props.column.left !== undefined, number: props.column.number }}
      aria-colindex={props.at}
      aria-sort={sorted()}
      style={pin(props.column)}
    >
      <Show when={props.column.sorts} fallback={headingOf(name(), state.units)}>
        <button
          type="button"
          class="sort"
          data-sorted={sorted()}
          onClick={() => apply(sortBy(name(), props.column.number && name() !== 'rank'))}
        >
          {headingOf(name(), state.units)}
          <svg viewBox="0 0 8 10" aria-hidden="true">
            <path d={sorted() === 'ascending' ? 'M4 1L7.500 8H.5Z' : 'M4 9L.5 2H7.500Z'} />
          </svg>
        </button>
      </Show>
      <Show when={props.column.filters}>
        <ColumnFilter column={name()} />
      </Show>
    </th>
  );
}

function PlainRow(props: {
  readonly ranking: Ranking;
  readonly b: number;
  readonly place: number;
  readonly top: number;
  readonly columns: readonly Placed[];
  readonly template: string;
}) {
  const desk = useDesk();
  const selected = () => desk.state.selected === props.b;
  return (
    <tr
      class="plain-row"
      id={`row-${props.b}`}
      aria-rowindex={props.place + 2}
      aria-selected={selected()}
      data-hovered={desk.hovered() === props.b || undefined}
      style={{
        transform: `translateY(${props.top}px)`,
        'grid-template-columns': props.template,
      }}
      onClick={() => desk.apply(select(props.b))}
      onDblClick={() => desk.apply(openBuilding(props.b))}
      onPointerEnter={() => desk.hover(props.b)}
      onPointerLeave={() => desk.hover(null)}
    >
      <For each={props.columns}>
        {(column, i) => (
          <td
            class="plain-cell"
            classList={{ pinned: column.left !== undefined, number: column.number }}
            aria-colindex={i() + 1}
            style={pin(column)}
          >
            <Show when={props.ranking.row(props.b)}>
              {(row) => <Content column={column} row={row()} b={props.b} reachable={selected()} />}
            </Show>
          </td>
        )}
      </For>
    </tr>
  );
}

/** Columns with a derivation behind their figure. */
const derived: ReadonlySet<string> = new Set(
  `index index_low index_high index_spread wetting_l_m2 rain_mm rain_low_mm rain_high_mm insured_value
  index_weighted_area_m2 p_rain_over_threshold`.split(/\s+/),
);

function Content(props: {
  readonly column: PlainColumn;
  readonly row: RankRow;
  readonly b: number;
  readonly reachable: boolean;
}): JSX.Element {
  const desk = useDesk();
  const name = props.column.name;
  const value = () => props.row[name];
  const following = () => desk.session.live() !== null && /_(low|high|spread)$/.test(name);
  if (name === 'tier') {
    const tier = () => tierOf(props.row);
    return (
      <>
        <TierMark tier={tier()} /> {tier()}
      </>
    );
  }
  if (name === 'building_id' || name === 'name') {
    return (
      <BuildingName b={props.b} reachable={props.reachable}>
        {value() ?? ''}
      </BuildingName>
    );
  }
  if (name === 'reason') return <Plain value={reasonIn(props.row, desk.state.units)} />;
  if (name.startsWith('need_')) return <Plain value={needInFull(value())} />;
  if (derived.has(name)) {
    return (
      <Show when={!following()} fallback="…">
        <OpenNumber
          value={value()}
          column={name}
          b={props.b}
          currency={props.row.currency}
          reachable={props.reachable}
        />
      </Show>
    );
  }
  return <Plain value={plainWord(show(value(), name, desk.state.units, props.row.currency))} />;
}

/** Words that may be longer than their cell. */
const Plain = (props: { readonly value: string }) => <span title={props.value}>{props.value}</span>;
