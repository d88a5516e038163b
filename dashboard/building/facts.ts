import { buildingColumns } from '../../analysis/read/schema.ts';
import { referenceRows } from '../../analysis/reference.ts';
import type { BuildingDetail } from '../../analysis/session-types.ts';
import { facing, noRecord, show, type Value } from '../parts/format.ts';
import { columnKinds, type Units } from '../parts/quantity.ts';
import { label, plainWord } from '../parts/words.ts';

type Cells = Readonly<Record<string, Value>>;

/** Shown in the heading of the sheet already, or beside another fact. */
const elsewhere = new Set(
  'b row building_id name address city region postal_code currency mean_wind_ms mean_temp_of_grid'.split(
    ' ',
  ),
);

const contract = new Map(buildingColumns.map((column) => [column.name, column]));

export interface Fact {
  readonly label: string;
  readonly text: string;
}

export interface FactLists {
  readonly onRecord: readonly Fact[];
  /** Labels of the contract's columns that are blank for this building. */
  readonly missing: readonly string[];
  /** The user's own columns, kept as they came. */
  readonly own: readonly Fact[];
}

/** The building's own record, split into what is on record, what is not, and the columns the contract does not know. */
export function factsOf(record: Cells, units: Units): FactLists {
  const known = (name: string) => contract.has(name);
  const names = Object.keys(record).filter(
    (name) => !elsewhere.has(name) && !contract.get(name)?.derived,
  );
  const filled = names.filter((name) => record[name] !== null && record[name] !== undefined);
  const fact = (name: string): Fact => ({
    label: label(name),
    text: factText(record, name, units),
  });
  return {
    onRecord: filled.filter(known).map(fact),
    missing: names.filter((name) => known(name) && !filled.includes(name)).map(label),
    own: filled
      .filter((name) => !known(name))
      .map((name) => ({ label: name, text: String(record[name]) })),
  };
}

function factText(record: Cells, name: string, units: Units): string {
  const value = record[name];
  if (name === 'azimuth_deg') return facing(value);
  if (typeof value === 'string') return columnKinds[name] ? value : plainWord(value);
  return show(value, name, units, record.currency);
}

/** `HX-0012 · 14 Alder Street, Astoria, Oregon`, with what is not on record left out. */
export function placeLine(detail: BuildingDetail): string {
  const of = (name: string) => detail.record[name] ?? detail.row[name];
  const place = ['address', 'city', 'region', 'postal_code'].map(of).filter(Boolean).join(', ');
  return [of('building_id'), place].filter(Boolean).join(' · ');
}

/** How far off a place taken from a postal code may be; empty for coordinates. */
export function placeDoubt({ record }: BuildingDetail): string {
  const { place_source: source, place_km: km, postal_code: code } = record;
  if (source !== 'postal centroid') return '';
  const within = typeof km === 'number' ? `, within about ${Math.round(km)} km (an estimate)` : '';
  return `Placed at the centre of postal code ${code}${within}: rain and terrain are those of that point.`;
}

/** The ends of the tier that differ from it: *low Keep watch*, *high First look*; none where it does not move. */
export const tierEnds = (row: Cells): readonly string[] =>
  [['low', row.tier_low] as const, ['high', row.tier_high] as const]
    .filter(([, end]) => end && end !== row.tier)
    .map(([word, end]) => `${word} ${end}`);

/** How far the tier may move with what is not known. */
export function tierSpan(row: Cells): string {
  const { tier_low: low, tier_high: high } = row;
  if (!low || !high || low === high) return '';
  return `between ${low} and ${high}`;
}

/** The unknowns of a row as words, the most valuable first, each with its share of the index's spread. */
export const worthChasing = (row: Cells): readonly string[] =>
  String(row.unknowns ?? '')
    .split(';')
    .filter(Boolean)
    .map((fact) => {
      const share = Number(row[`share_${fact}`] ?? 0);
      return share >= 0.005
        ? `${factLabel(fact)} (${Math.round(share * 100)} % of the spread)`
        : factLabel(fact);
    });

/** A fact as sentences call it: *what drains the wall*, *the terrain*. */
function factLabel(name: string): string {
  const row = referenceRows('facts').find((fact) => fact.fact === name);
  return row?.label ?? label(name).toLowerCase();
}

/** The facts of a wall record that are blank, for records whose `unknowns` the analysis does not weigh. */
export const blankFacts = (wall: Cells): string =>
  ['drainage', 'sheathing', 'material', 'installed', 'gap_mm']
    .filter((name) => wall[name] === null)
    .join(';');

export const orNoRecord = (value: Value): string =>
  value === null || value === undefined || value === '' ? noRecord : plainWord(String(value));
