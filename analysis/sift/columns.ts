import { tiers } from '../session-types.ts';

/** How a column's values are held and may be asked for. */
type ColumnKind =
  /** A Float64Array; filtered by from and below. */
  | 'number'
  /** Codes into words; filtered by any of its words. */
  | 'category'
  /** Only its place in alphabetical order: the words themselves stay in the engine. */
  | 'text';

/** Where a column lies in the engine: asking the view `ranking` would join everything for one column. */
type Source = 'tiered' | 'site' | 'wall' | 'scored_area' | 'rank_of';

/** The rows of each source, with `b`. The wall is the one that sets the building's index. */
export const sourceText: Readonly<Record<Source, string>> = {
  tiered: 'tiered',
  site: 'site',
  wall: '(SELECT t.b, w.* EXCLUDE (b) FROM tiered t JOIN wall w ON w.wall = t.wall)',
  // NULL where the area of any scored wall is not known: a part of it is not a total.
  scored_area: `(SELECT b, CASE WHEN count(area_used_m2) = count(*)
    THEN sum(CAST(round(area_used_m2 * 1e3) AS BIGINT)) / 1e3 END AS scored_area_m2
    FROM wall WHERE scored GROUP BY b)`,
  rank_of: 'rank_of',
};

export interface SiftColumn {
  readonly kind: ColumnKind;
  readonly source: Source;
  /** How the ranking rounds it, where it does. */
  readonly text?: string;
  /** The words of a category that is stored as its code: they are known before any file is. */
  readonly words?: readonly string[];
}

const of = (
  source: Source,
  kind: ColumnKind,
  names: string,
): readonly (readonly [string, SiftColumn])[] =>
  names.split(' ').map((name) => [name, { kind, source }]);

const rounded = (
  source: Source,
  texts: Readonly<Record<string, string>>,
): readonly (readonly [string, SiftColumn])[] =>
  Object.entries(texts).map(([name, text]) => [name, { kind: 'number', source, text }]);

const tierColumn: SiftColumn = { kind: 'category', source: 'tiered', words: tiers };

/** Every column of the ranking that may be sorted and filtered by, by name. */
export const siftColumns: ReadonlyMap<string, SiftColumn> = new Map([
  ...of('rank_of', 'number', 'rank'),
  ...of('site', 'text', 'building_id name address city'),
  ...of('site', 'category', 'region place_source rain_flag use terrain roof leak_history currency'),
  ...of(
    'site',
    'number',
    'latitude longitude height_used_m insured_value wall_area_m2 building_count',
  ),
  ...rounded('site', {
    rain_mm: 'round(rain_mm, 1)',
    rain_low_mm: 'round(rain_low_mm, 1)',
    rain_high_mm: 'round(rain_high_mm, 1)',
    p_rain_over_threshold: 'least(greatest(round(p_rain_over_threshold, 2), 0.01), 0.99)',
  }),
  ...of('scored_area', 'number', 'scored_area_m2'),
  ...of('wall', 'text', 'wall_id'),
  ...of('wall', 'category', 'material drainage_used sheathing'),
  ...of('wall', 'number', 'installed_used'),
  ['tier', tierColumn],
  ['tier_low', tierColumn],
  ['tier_high', tierColumn],
  ...of('tiered', 'category', 'drainage_state need_code_then need_code_now need_practice'),
  ...of(
    'tiered',
    'number',
    `wetting_l_m2 index index_low index_high index_spread index_weighted_area_m2 adequacy susceptibility gap_asked_mm`,
  ),
]);

/** The column by its name. Throws where the ranking has none: a mistake in our code. */
export function siftColumn(name: string): SiftColumn {
  const column = siftColumns.get(name);
  if (!column) throw new Error(`the ranking has no column ${name} to sift by`);
  return column;
}
