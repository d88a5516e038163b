import { createVirtualizer, type VirtualItem } from '@tanstack/solid-virtual';
import { createEffect, createMemo, createSignal, on, onMount } from 'solid-js';
import { openBuilding, select } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import type { Ranking } from './ranking.ts';
import { moved, rowsOn, rowsPerSheet, sheetCount, sheetOf } from './sheet-of-rows.ts';

/** What a table of the ranking is drawn by: the window of rows in view, and the pencil moved by keys. */
export interface RowWindow {
  readonly attach: (table: HTMLTableElement) => void;
  /** Rows in view; an item stays the same object while its row stays in view. */
  readonly items: () => readonly VirtualItem[];
  /** Place of a row in the order, from 0, and how far it stands from the top of the rows, px. */
  readonly placeOf: (item: VirtualItem) => number;
  readonly topOf: (item: VirtualItem) => number;
  /** Height of all rows of the sheet, px. */
  readonly total: () => number;
  readonly sheet: () => number;
  readonly setSheet: (sheet: number) => void;
  readonly onKey: (event: KeyboardEvent) => void;
  /** Id of the selected row, where it is shown. */
  readonly active: () => string | undefined;
}

/**
 * Only the rows in view are in the page, and only their texts are fetched, however long the ranking is.
 * @param rowHeight px, one for all rows
 * @param head height of the headings, which stay in place, px
 */
export function createRowWindow(
  ranking: () => Ranking,
  rowHeight: () => number,
  head: () => number,
): RowWindow {
  const desk = useDesk();
  let table: HTMLTableElement | undefined;
  const [scroller, setScroller] = createSignal<HTMLTableElement | null>(null);
  // Not as a ref: before it is mounted the element belongs to no window, and its size could not be observed.
  onMount(() => setScroller(table ?? null));
  const [sheet, setSheet] = createSignal(0);
  const order = () => ranking().order();
  const position = createMemo(() => {
    const at = desk.state.selected === null ? -1 : order().indexOf(desk.state.selected);
    return at < 0 ? null : at;
  });
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
  createEffect(on([position, scroller, rowHeight], () => queueMicrotask(reveal)));
  const first = () => sheet() * rowsPerSheet;
  createEffect(() => {
    const items = virtual.getVirtualItems();
    const from = first() + (items[0]?.index ?? 0);
    ranking().want(order().slice(Math.max(0, from - 20), from + items.length + 20));
  });
  const page = () =>
    Math.max(1, Math.floor(((scroller()?.clientHeight ?? 0) - head()) / rowHeight()) - 1);
  const onKey = (event: KeyboardEvent) => {
    if (event.target !== scroller() || event.ctrlKey || event.metaKey || event.altKey) return;
    const selected = desk.state.selected;
    if (event.key === 'Enter' && selected !== null) desk.apply(openBuilding(selected));
    const to = moved(event.key, position(), order().length, page());
    if (to === null) return;
    event.preventDefault();
    desk.apply(select(order()[to] ?? null));
  };
  return {
    attach: (element) => {
      table = element;
    },
    items: () => virtual.getVirtualItems(),
    placeOf: ({ index }) => first() + index,
    topOf: ({ start }) => start - head(),
    total: () => virtual.getTotalSize(),
    sheet,
    setSheet,
    onKey,
    active: () => (position() === null ? undefined : `row-${desk.state.selected}`),
  };
}
