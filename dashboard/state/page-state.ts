import type { Band } from '../../analysis/bands.ts';
import type { Conditions, RankBy, RankQuery } from '../../analysis/session-types.ts';
import type { Units } from '../parts/quantity.ts';

export const views = [
  'Sources',
  'Rank',
  'Exposure',
  'Sample',
  'Findings',
  'Settings',
  'Method',
] as const;
export type View = (typeof views)[number];

export const sheets = ['auto', 'light', 'dark'] as const;
export type Sheet = (typeof sheets)[number];

/** How a building's row is drawn: with the reason for its place, or as plain cells of chosen columns. */
export const rowForms = ['reasons', 'columns'] as const;
export type RowForm = (typeof rowForms)[number];

export const folds = ['auto', 'open', 'folded'] as const;
type Fold = (typeof folds)[number];

/** Which half of Rank a narrow screen shows. */
type Half = 'list' | 'map';

/** What a building must be to be shown: each column's condition, and words found in it. */
export interface Filters {
  readonly on: Conditions;
  readonly search: string;
}

export interface Sort {
  readonly column: string;
  readonly descending: boolean;
}

/** Everything about the page that a reload brings back; it is written into the address after the `#`. */
export interface PageState {
  readonly view: View;
  readonly by: RankBy;
  readonly sort: Sort | null;
  readonly filters: Filters;
  /** Building ordinal under the pencil, and whether its sheet is open. */
  readonly selected: number | null;
  readonly opened: boolean;
  readonly half: Half;
  readonly rows: RowForm;
  /** Whether the linked views are unfolded; *auto*: where there is room for them beside everything else. */
  readonly charts: Fold;
  /** Columns of the plain rows, in order; empty: those first shown. Those pinned stay while the others scroll. */
  readonly columns: readonly string[];
  readonly pinned: readonly string[];
  readonly units: Units;
  readonly sheet: Sheet;
  /** True when the state was about the user's own files, which do not outlive a reload. */
  readonly own: boolean;
}

export const noFilters: Filters = { on: {}, search: '' };

export const firstState: PageState = {
  view: 'Rank',
  by: 'index',
  sort: null,
  filters: noFilters,
  selected: null,
  opened: false,
  half: 'list',
  rows: 'reasons',
  charts: 'auto',
  columns: [],
  pinned: [],
  units: 'metric',
  sheet: 'auto',
  own: false,
};

/** The question put to the analysis: absent filters are left out. */
export function queryOf(state: Pick<PageState, 'by' | 'sort' | 'filters'>): RankQuery {
  const { on, search } = state.filters;
  return {
    by: state.by,
    ...(state.sort && { sort: state.sort }),
    ...(Object.keys(on).length > 0 && { on: copied(on) }),
    ...(search.trim() && { search: search.trim() }),
  };
}

/**
 * The page's state is changed in place: a question that was put must not change with it, and what asks it must follow
 * every word of the filters. A copy reads them all.
 */
const copied = (on: Conditions): Conditions => JSON.parse(JSON.stringify(on));

/** The words chosen of a column; none where the column is not filtered by words. */
export function amongOf(filters: Filters, column: string): readonly (string | null)[] {
  const condition = filters.on[column];
  return condition && 'among' in condition ? condition.among : [];
}

/** The range that a column must lie in; null where it is not filtered by one. */
export function rangeOf(filters: Filters, column: string): Band | null {
  const condition = filters.on[column];
  return condition && !('among' in condition) ? condition : null;
}
