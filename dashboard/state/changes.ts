import type { Condition, RankBy } from '../../analysis/session-types.ts';
import {
  amongOf,
  type Filters,
  firstState,
  noFilters,
  type PageState,
  type Sort,
} from './page-state.ts';

/** Changes of the page's state: pure functions from the state before to the state after. */
export type Change = (before: PageState) => PageState;

/** The list with a value added, or taken away where it was there. */
export const toggled = <T>(list: readonly T[], value: T): readonly T[] =>
  list.includes(value) ? list.filter((other) => other !== value) : [...list, value];

const filtered =
  (change: (filters: Filters) => Partial<Filters>): Change =>
  (s) => ({ ...s, filters: { ...s.filters, ...change(s.filters) } });

export const patch =
  (part: Partial<PageState>): Change =>
  (s) => ({ ...s, ...part });

/** Puts conditions on columns; null, or no word at all, lifts what was there. */
export const setConditions = (conditions: Readonly<Record<string, Condition | null>>): Change =>
  filtered(({ on }) => {
    const next = Object.entries({ ...on, ...conditions }).filter(
      (entry): entry is [string, Condition] => entry[1] !== null && !isEmpty(entry[1]),
    );
    return { on: Object.fromEntries(next) };
  });

export const setCondition = (column: string, condition: Condition | null): Change =>
  setConditions({ [column]: condition });

/** Adds a word to those that a column may be, or takes it away. */
export const toggleAmong =
  (column: string, value: string | null): Change =>
  (s) =>
    setCondition(column, { among: toggled(amongOf(s.filters, column), value) })(s);

/** Nothing asked: a list of no words, a range open on both sides. */
const isEmpty = (condition: Condition): boolean =>
  'among' in condition
    ? condition.among.length === 0
    : condition.from === undefined && condition.below === undefined;

export const setSearch = (search: string): Change => filtered(() => ({ search }));
export const clearFilters: Change = (s) => ({ ...s, filters: noFilters });

/** A new ranking ends a sort by column: the two answer the same question. */
export const rankBy = (by: RankBy): Change => patch({ by, sort: null });

/**
 * Click on a heading: first in the direction that puts the most telling rows on top, then reversed,
 * then back to the ranking.
 */
export const sortBy =
  (column: string, descendingFirst: boolean): Change =>
  (s) => ({ ...s, sort: nextSort(s.sort, column, descendingFirst) });

export function nextSort(sort: Sort | null, column: string, descendingFirst: boolean): Sort | null {
  if (sort?.column !== column) return { column, descending: descendingFirst };
  return sort.descending === descendingFirst ? { column, descending: !descendingFirst } : null;
}

export const select = (b: number | null): Change => patch({ selected: b });
export const openBuilding = (b: number): Change =>
  patch({ view: 'Rank', selected: b, opened: true });
export const closeBuilding: Change = patch({ opened: false });

/** Other files mean other buildings: what pointed into the old ones is dropped, how the page looks is kept. */
export const otherFiles =
  (own: boolean): Change =>
  (s) => ({
    ...firstState,
    view: s.view,
    units: s.units,
    sheet: s.sheet,
    by: s.by,
    rows: s.rows,
    charts: s.charts,
    columns: s.columns,
    pinned: s.pinned,
    own,
  });
