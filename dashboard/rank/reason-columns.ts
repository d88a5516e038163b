import type { Units } from '../parts/quantity.ts';
import { quantities } from '../parts/quantity.ts';

/** A column of the ranking as the table shows it. `area` is its place in the row's grid (`table.css`). */
export interface TableColumn {
  readonly area: string;
  readonly label: string;
  /** Output column to sort by; absent where order would mean nothing. */
  readonly sort?: string;
  /** Numbers start with the greatest, words with A. */
  readonly descendingFirst?: boolean;
}

export const tableColumns: readonly TableColumn[] = [
  { area: 'reason', label: 'Why it stands here' },
  { area: 'rank', label: 'Rank', sort: 'rank' },
  { area: 'tier', label: 'Tier', sort: 'tier' },
  { area: 'building', label: 'Building', sort: 'name' },
  { area: 'value', label: 'Insured value', sort: 'insured_value', descendingFirst: true },
  { area: 'strip', label: 'Wall, from the rain inwards' },
  { area: 'index', label: 'Index, 0–100', sort: 'index', descendingFirst: true },
  { area: 'range', label: 'low – high', sort: 'index_high', descendingFirst: true },
  { area: 'wetting', label: 'Wetting', sort: 'wetting_l_m2', descendingFirst: true },
  { area: 'rain', label: 'Rain', sort: 'rain_mm', descendingFirst: true },
  { area: 'state', label: 'Drainage state', sort: 'drainage_state' },
  { area: 'need', label: 'Asked now, practice', sort: 'need_code_now' },
];

const unitOf: Readonly<Record<string, 'wetting' | 'rain'>> = { wetting: 'wetting', rain: 'rain' };

/** Heading with the unit in use. */
export function heading(column: TableColumn, units: Units): string {
  const kind = unitOf[column.area];
  return kind ? `${column.label}, ${quantities[kind][units].unit}` : column.label;
}

/** The ranked columns offered for sorting on narrow screens, where headings have no room. */
export const sortable = tableColumns.filter(
  (c): c is TableColumn & { sort: string } => c.sort !== undefined,
);
