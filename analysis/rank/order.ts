import { identifier, type Param } from '../engine/port.ts';
import { type RankBy, type RankQuery, tiers } from '../session-types.ts';

export interface Statement {
  readonly text: string;
  readonly params: readonly Param[];
}

/** Order of each ranking; rank and building_id settle what is left. */
const orders: Readonly<Record<RankBy, string>> = {
  index: '',
  wetting: 'wetting_l_m2 DESC NULLS LAST, ',
  high: 'index_high DESC NULLS LAST, ',
  value_at_tier: 'tier, insured_value DESC NULLS LAST, ',
};

const last = 'rank NULLS LAST, building_id';

/** Columns of `ranking` that a view may sort by. */
const sortable: ReadonlySet<string> = new Set(
  `rank building_id name city region latitude longitude place_source rain_mm rain_low_mm rain_high_mm
  p_rain_over_threshold rain_source rain_flag wall_id material wetting_l_m2 drainage_state need_code_then need_code_now
  need_practice index index_low index_high index_spread tier tier_low tier_high index_weighted_area_m2 insured_value
  currency height_used_m sheathing adequacy susceptibility`.split(/\s+/),
);

/** The statement that answers a RankQuery: one column `b`. Throws on a column that is not sortable. */
export function orderStatement(query: RankQuery): Statement {
  const clauses = [
    oneOf(
      'tier',
      query.tier?.map((tier) => tiers.indexOf(tier)),
    ),
    oneOf('region', query.region),
    oneOf('material', query.material),
    bound('height_used_m >= ?', query.height?.from),
    bound('height_used_m < ?', query.height?.below),
    search(query.search),
  ].filter((clause) => clause !== undefined);
  const where = clauses.length > 0 ? ` WHERE ${clauses.map(({ text }) => text).join(' AND ')}` : '';
  return {
    text: `SELECT b FROM ranking${where} ORDER BY ${sorting(query)}`,
    params: clauses.flatMap(({ params }) => params),
  };
}

function sorting({ by, sort }: RankQuery): string {
  if (!sort) return orders[by] + last;
  if (!sortable.has(sort.column)) throw new Error(`cannot sort by ${sort.column}`);
  return `${identifier(sort.column)} ${sort.descending ? 'DESC' : 'ASC'} NULLS LAST, ${last}`;
}

/** The value is among the wanted ones; null among them wants no record. */
function oneOf(column: string, wanted: readonly Param[] | undefined): Statement | undefined {
  if (!wanted) return undefined;
  const values = wanted.filter((value) => value !== null);
  const marks = values.map(() => '?').join(', ');
  const texts = [
    ...(values.length > 0 ? [`${column} IN (${marks})`] : []),
    ...(values.length < wanted.length ? [`${column} IS NULL`] : []),
  ];
  return { text: texts.length > 0 ? `(${texts.join(' OR ')})` : 'false', params: values };
}

const bound = (text: string, value: number | undefined): Statement | undefined =>
  value === undefined ? undefined : { text, params: [value] };

function search(words: string | undefined): Statement | undefined {
  if (!words?.trim()) return undefined;
  const text =
    "contains(strip_accents(lower(concat_ws(' ', building_id, name, address, city))), strip_accents(lower(?)))";
  return { text, params: [words.trim()] };
}
