import { siftColumns } from '../../../analysis/sift/columns.ts';
import { columnKinds, quantities, type Units } from '../../parts/quantity.ts';
import { label } from '../../parts/words.ts';

/** A column of the plain rows. */
export interface PlainColumn {
  readonly name: string;
  /** px. */
  readonly width: number;
  /** Numbers stand to the right. */
  readonly number: boolean;
  /** May be sorted by; filtered too, but for texts, which are searched. */
  readonly sorts: boolean;
  readonly filters: boolean;
}

/** Widths of columns whose words are longer or shorter than most, px. */
const widths: Readonly<Record<string, number>> = {
  rank: 64,
  building_id: 120,
  name: 190,
  address: 190,
  tier: 110,
  p_rain_over_threshold: 190,
  adequacy: 170,
  index_low: 120,
  index_high: 120,
  index_spread: 130,
  wetting_l_m2: 120,
  index_weighted_area_m2: 130,
  region: 74,
  reason: 420,
  need_code_then: 210,
  need_code_now: 210,
  need_practice: 150,
  rain_source: 260,
  rain_flag: 210,
  unknowns: 260,
  caution: 220,
};

const others: readonly string[] = ['rain_source', 'rain_period', 'reason', 'unknowns', 'caution'];

/** Every column there is, in the order of the contract and then of the record. */
const inOrder =
  `rank building_id name address city region tier tier_low tier_high index index_low index_high index_spread
  wetting_l_m2 rain_mm rain_low_mm rain_high_mm p_rain_over_threshold rain_source rain_period rain_flag wall_id material
  drainage_state drainage_used gap_asked_mm adequacy sheathing susceptibility installed_used need_code_then need_code_now
  need_practice use height_used_m terrain roof leak_history insured_value currency index_weighted_area_m2
  latitude longitude place_source reason unknowns caution`.split(/\s+/);

export const plainColumns: ReadonlyMap<string, PlainColumn> = new Map(
  inOrder.map((name) => {
    const kind = siftColumns.get(name)?.kind;
    const number = kind === 'number';
    return [
      name,
      {
        name,
        number,
        width: widths[name] ?? (number ? 108 : 130),
        sorts: !others.includes(name),
        filters: kind === 'number' || kind === 'category',
      },
    ];
  }),
);

const first =
  `rank tier building_id name region index index_low index_high wetting_l_m2 rain_mm material drainage_state
  need_code_now insured_value currency`.split(/\s+/);
const firstPinned = ['rank', 'tier', 'name'];

const known = (names: readonly string[]): readonly PlainColumn[] =>
  names.flatMap((name) => plainColumns.get(name) ?? []);

/** The columns chosen, those pinned first; those first shown where none that is known is chosen. */
export function chosenColumns(
  columns: readonly string[],
  pinned: readonly string[],
): { readonly pinned: readonly PlainColumn[]; readonly free: readonly PlainColumn[] } {
  const asked = known(columns);
  const all = asked.length > 0 ? asked : known(first);
  const names = asked.length > 0 ? pinned : firstPinned;
  const isPinned = ({ name }: PlainColumn) => names.includes(name);
  return { pinned: all.filter(isPinned), free: all.filter((column) => !isPinned(column)) };
}

/** What part of the table's width columns may take that stay while the others scroll. */
export const mostPinned = 0.6;

/** The pinned columns that find room to stay, in their order: the first that does not scrolls, and so do all after it. */
export function stayingColumns(
  pinned: readonly PlainColumn[],
  tableWidth: number,
): readonly PlainColumn[] {
  let room = mostPinned * tableWidth;
  const over = pinned.findIndex(({ width }) => {
    room -= width;
    return room < 0;
  });
  return over < 0 ? pinned : pinned.slice(0, over);
}

/** The heading with the unit in use. */
export function headingOf(name: string, units: Units): string {
  const unit = quantities[columnKinds[name] ?? 'plain'][units].unit;
  return unit ? `${label(name)}, ${unit}` : label(name);
}
