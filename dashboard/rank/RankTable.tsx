import { createVirtualizer } from '@tanstack/solid-virtual';
import {
  createEffect,
  createMemo,
  createSignal,
  For,
  Match,
  on,
  onMount,
  Show,
  Switch,
} from 'solid-js';
import { digits } from '../parts/format.ts';
import { clearFilters, openBuilding, select } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { tableColumns } from './columns.ts';
import { HeadingRow } from './HeadingRow.tsx';
import { RowView } from './RowView.tsx';
import type { Ranking } from './ranking.ts';
import { moved, rowsOn, rowsPerSheet, sheetCount, sheetOf } from './sheet-of-rows.ts';
import { TableFoot } from './TableFoot.tsx';
import './table.css';
import './heading.css';
import './strip.css';
import './stacked.css';

/** Fixed heights, px: the wide row, and the stacked one of narrow screens and of the list beside a building. */
const heights = { wide: 68, stacked: 140 } as const;
const headingHeight = { wide: 58, stacked: 38 } as const;

export function RankTable(props: { readonly ranking: Ranking }) {
  const desk = useDesk();
  let table: HTMLTableElement | undefined;
  const [scroller, setScroller] = createSignal<HTMLTableElement | null>(null);
  // Not as a ref: before it is mounted the element belongs to no window, and its size could not be observed.
  onMount(() => setScroller(table ?? null));
  const [sheet, setSheet] = createSignal(0);
  const stacked = () => desk.narrow() || desk.state.opened;
  const order = () => props.ranking.order();
  const position = createMemo(() => {
    const at = desk.state.selected === null ? -1 : order().indexOf(desk.state.selected);
    return at < 0 ? null : at;
  });
  const rowHeight = () => (stacked() ? heights.stacked : heights.wide);
  const head = () => (stacked() ? headingHeight.stacked : headingHeight.wide);
  const virtual = createVirtualizer<HTMLTableElement, HTMLTableRowElement>({
    get count() {
      return rowsOn(sheet(), order().length);
    },
    getScrollElement: scroller,
    estimateSize: rowHeight,
    overscan: 6,
    get scrollMargin() {
      return head();
    },
    get scrollPaddingStart() {
      return head();
    },
  });
  createEffect(on(rowHeight, () => virtual.measure(), { defer: true }));
  createEffect(on(order, () => setSheet((s) => Math.min(s, sheetCount(order().length) - 1))));
  const reveal = () => {
    const at = position();
    if (at === null) return;
    const place = sheetOf(at);
    setSheet(place.sheet);
    virtual.scrollToIndex(place.local, { align: 'auto' });
  };
  createEffect(on([position, scroller, stacked], () => queueMicrotask(reveal)));
  createEffect(() => {
    const items = virtual.getVirtualItems();
    const from = sheet() * rowsPerSheet + (items[0]?.index ?? 0);
    props.ranking.want(order().slice(Math.max(0, from - 20), from + items.length + 20));
  });
  const onKey = (event: KeyboardEvent) => {
    if (event.target !== scroller()) return;
    const at = position();
    const selected = desk.state.selected;
    if (event.key === 'Enter' && selected !== null) desk.apply(openBuilding(selected));
    const page = Math.max(
      1,
      Math.floor(((scroller()?.clientHeight ?? 0) - head()) / rowHeight()) - 1,
    );
    const to = moved(event.key, at, order().length, page);
    if (to === null) return;
    event.preventDefault();
    desk.apply(select(order()[to] ?? null));
  };
  const active = () => (position() === null ? undefined : `row-${desk.state.selected}`);
  return (
    <div class="table-pane">
      <table
        class="ranking"
        classList={{ stacked: stacked() }}
        // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: the ARIA grid pattern, rows chosen by key
        role="grid"
        tabIndex={0}
        aria-label="Ranking of buildings"
        aria-rowcount={order().length + 1}
        aria-colcount={tableColumns.length}
        aria-activedescendant={active()}
        aria-busy={props.ranking.pending()}
        ref={table}
        onKeyDown={onKey}
      >
        <HeadingRow wettingMax={props.ranking.opened.frame.wettingMax} />
        <tbody class="rows" style={{ height: `${virtual.getTotalSize()}px` }}>
          <For each={virtual.getVirtualItems()}>
            {(item) => (
              <RowView
                ranking={props.ranking}
                b={order()[sheet() * rowsPerSheet + item.index]}
                place={sheet() * rowsPerSheet + item.index}
                top={item.start - head()}
                height={rowHeight()}
              />
            )}
          </For>
        </tbody>
      </table>
      <Switch>
        <Match when={props.ranking.failed()}>
          {(message) => (
            <p class="panel-state" role="alert">
              The ranking could not be read: {message()}
            </p>
          )}
        </Match>
        <Match when={!props.ranking.pending() && order().length === 0}>
          <p class="panel-state">
            No building matches these filters.{' '}
            <button type="button" class="plain-button" onClick={() => desk.apply(clearFilters)}>
              Clear filters
            </button>
          </p>
        </Match>
      </Switch>
      <Show when={sheetCount(order().length) > 1}>
        <SheetPick rows={order().length} sheet={sheet()} onPick={setSheet} />
      </Show>
      <Show when={!desk.state.opened}>
        <TableFoot ranking={props.ranking} />
      </Show>
    </div>
  );
}

function SheetPick(props: {
  readonly rows: number;
  readonly sheet: number;
  readonly onPick: (sheet: number) => void;
}) {
  const first = (sheet: number) => digits(sheet * rowsPerSheet + 1, 0);
  const last = (sheet: number) => digits(sheet * rowsPerSheet + rowsOn(sheet, props.rows), 0);
  return (
    <label class="sheet-pick">
      Rows{' '}
      <select
        value={String(props.sheet)}
        onChange={(event) => props.onPick(Number(event.currentTarget.value))}
      >
        <For each={Array.from({ length: sheetCount(props.rows) }, (_, i) => i)}>
          {(sheet) => (
            <option value={String(sheet)}>
              {first(sheet)} to {last(sheet)}
            </option>
          )}
        </For>
      </select>
    </label>
  );
}
