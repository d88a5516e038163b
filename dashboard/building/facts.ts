import { csvTable } from '../../analysis/csv-table.ts';
import { buildingColumns } from '../../analysis/read/schema.ts';
import type { BuildingDetail } from '../../analysis/session-types.ts';
import factsCsv from '../../data/facts.csv?raw';
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

const facts = csvTable<'fact' | 'label' | 'question'>(factsCsv);

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

/** What of a building's place is taken from its postal code, and how far off that may be; empty where nothing is. */
export function placeDoubt({ record }: BuildingDetail): string {
  const { place_source: source, place_km: km, postal_code: code } = record;
  const region =
    record.region_source === 'postal code' ? ['Region read from the postal code.'] : [];
  if (source !== 'postal centroid') return region.join('');
  const within = typeof km === 'number' ? `, within about ${Math.round(km)} km (an estimate)` : '';
  const place = `Placed at the centre of postal code ${code}${within}: rain and terrain are those of that point.`;
  return [place, ...region].join(' ');
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

/** A fact that is not on record, the question that asks for it, and what knowing it would settle. */
interface Missing {
  readonly fact: string;
  /** As sentences call it: *what drains the wall*, *the terrain*. */
  readonly label: string;
  readonly question: string;
  /** Share of the spread of the building's index that knowing it would take away, 0-1. */
  readonly share: number;
}

/** The facts that a row lacks, the most telling first. */
export const missingOf = (row: Cells): readonly Missing[] =>
  String(row.unknowns ?? '')
    .split(';')
    .filter(Boolean)
    .map((fact) => {
      const known = facts.find((one) => one.fact === fact);
      return {
        fact,
        label: known?.label ?? label(fact).toLowerCase(),
        question: known?.question ?? '',
        share: Number(row[`share_${fact}`] ?? 0),
      };
    });

/** The unknowns of a row as words, each with its share of the index's spread. */
export const worthChasing = (row: Cells): readonly string[] =>
  missingOf(row).map(({ label, share }) =>
    share >= 0.005 ? `${label} (${Math.round(share * 100)} % of the spread)` : label,
  );

/** The facts of a wall record that are blank, for records whose `unknowns` the analysis does not weigh. */
export const blankFacts = (wall: Cells): string =>
  ['drainage', 'sheathing', 'material', 'installed', 'gap_mm']
    .filter((name) => wall[name] === null)
    .join(';');

/** Where the record of a wall comes from: *survey, 2014-05-02, walls.csv, row 21*. */
export const wallOrigin = (wall: Cells): string =>
  [wall.source, wall.recorded_on, wall.row && `${wall.file}, row ${wall.row}`, wall.own]
    .filter(Boolean)
    .join(', ');

export const orNoRecord = (value: Value): string =>
  value === null || value === undefined || value === '' ? noRecord : plainWord(String(value));
