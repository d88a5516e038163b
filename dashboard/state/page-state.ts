import type { RankBy, RankQuery, Tier } from '../../analysis/session-types.ts';
import type { Units } from '../parts/quantity.ts';

export const views = ['Sources', 'Rank', 'Sample', 'Findings', 'Settings', 'Method'] as const;
export type View = (typeof views)[number];

export const sheets = ['auto', 'light', 'dark'] as const;
export type Sheet = (typeof sheets)[number];

/** Which half of Rank a narrow screen shows. */
type Half = 'list' | 'map';

export interface Height {
  readonly from?: number;
  readonly below?: number;
}

export interface Filters {
  readonly tier: readonly Tier[];
  readonly region: readonly (string | null)[];
  readonly material: readonly (string | null)[];
  readonly height: Height | null;
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
  readonly units: Units;
  readonly sheet: Sheet;
  /** True when the state was about the user's own files, which do not outlive a reload. */
  readonly own: boolean;
}

export const noFilters: Filters = { tier: [], region: [], material: [], height: null, search: '' };

export const firstState: PageState = {
  view: 'Rank',
  by: 'index',
  sort: null,
  filters: noFilters,
  selected: null,
  opened: false,
  half: 'list',
  units: 'metric',
  sheet: 'auto',
  own: false,
};

/** Bands of building height, m. The steps are those at which the method's exposure factor changes. */
export const heightBands: readonly Height[] = [
  { below: 10 },
  { from: 10, below: 15 },
  { from: 15, below: 20 },
  { from: 20, below: 30 },
  { from: 30, below: 50 },
  { from: 50 },
];

/** The question put to the analysis: absent filters are left out. */
export function queryOf(state: Pick<PageState, 'by' | 'sort' | 'filters'>): RankQuery {
  const { tier, region, material, height, search } = state.filters;
  return {
    by: state.by,
    ...(state.sort && { sort: state.sort }),
    ...(tier.length > 0 && { tier }),
    ...(region.length > 0 && { region }),
    ...(material.length > 0 && { material }),
    ...(height && { height }),
    ...(search.trim() && { search: search.trim() }),
  };
}
