import type { RankBy, Tier } from '../../analysis/session-types.ts';
import {
  type Filters,
  firstState,
  type Height,
  noFilters,
  type PageState,
  type Sort,
} from './page-state.ts';

/** Changes of the page's state: pure functions from the state before to the state after. */
export type Change = (before: PageState) => PageState;

type ListFilter = 'tier' | 'region' | 'material';

const toggled = <T>(list: readonly T[], value: T): readonly T[] =>
  list.includes(value) ? list.filter((other) => other !== value) : [...list, value];

const filtered =
  (change: (filters: Filters) => Partial<Filters>): Change =>
  (s) => ({ ...s, filters: { ...s.filters, ...change(s.filters) } });

export const patch =
  (part: Partial<PageState>): Change =>
  (s) => ({ ...s, ...part });

export const toggleTier = (tier: Tier): Change =>
  filtered((f) => ({ tier: toggled(f.tier, tier) }));

export const toggleIn = (list: Exclude<ListFilter, 'tier'>, value: string | null): Change =>
  filtered((f) => ({ [list]: toggled(f[list], value) }));

export const setHeight = (height: Height | null): Change => filtered(() => ({ height }));
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
  (s) => ({ ...firstState, view: s.view, units: s.units, sheet: s.sheet, by: s.by, own });
