/** How the cells of a column are read. Numbers: number, money, percent, degrees, year, azimuth. The rest are texts. */
export type NumberKind = 'number' | 'money' | 'percent' | 'degrees' | 'year' | 'azimuth';
export type TextKind = 'text' | 'vocabulary' | 'yes_no' | 'zone' | 'currency' | 'date';

/** A number, or the year the analysis speaks for. */
export type Bound = number | 'as_of';
export type Range = readonly [least: Bound, most: Bound];

export interface ColumnRule {
  readonly name: string;
  readonly kind: NumberKind | TextKind;
  readonly unit?: string;
  /** A number outside is taken as no record and noted. Judgement: it catches slips of unit or key, no more. */
  readonly range?: Range;
  /** A number outside sets the whole row aside. */
  readonly aside?: Range;
  /** Filled by the reader, never by a heading of the file. */
  readonly derived?: true;
  /** Filled by the reader where the file leaves it blank, so kept even when the file has no such column. */
  readonly completed?: true;
  /** A name the user gave, which may be a short code that elsewhere says no record. */
  readonly identifier?: true;
}

const text = (name: string): ColumnRule => ({ name, kind: 'text' });
const word = (name: string): ColumnRule => ({ name, kind: 'vocabulary' });
const yesNo = (name: string): ColumnRule => ({ name, kind: 'yes_no' });
const derived = (name: string): ColumnRule => ({ ...text(name), derived: true });
const number = (name: string, unit: string, least: number, most: number): ColumnRule => ({
  name,
  kind: 'number',
  unit,
  range: [least, most],
});
const builtYear = (name: string): ColumnRule => ({
  name,
  kind: 'year',
  aside: [1600, 'as_of'],
});

/** The columns of the building list, in the order of the contract, then those the reader adds. */
export const buildingColumns: readonly ColumnRule[] = [
  { ...text('building_id'), identifier: true },
  text('name'),
  text('address'),
  text('city'),
  { ...text('region'), completed: true },
  text('postal_code'),
  { name: 'latitude', kind: 'degrees', unit: 'degrees', completed: true },
  { name: 'longitude', kind: 'degrees', unit: 'degrees', completed: true },
  builtYear('year_built'),
  builtYear('reclad_year'),
  { ...number('storeys', 'storeys', 1, 200), aside: [0, 200] },
  { ...number('height_m', 'm', 1, 1000), aside: [0, 1000] },
  word('use'),
  word('construction_type'),
  word('terrain'),
  word('roof'),
  { name: 'climate_zone', kind: 'zone' },
  number('moisture_index', '', 0, 10),
  number('hdd18_c', 'degree-days C', 0, 20_000),
  number('mean_temp_c', 'degrees C', -40, 40),
  { ...number('insured_value', '', 0, 1e12), kind: 'money' },
  { name: 'currency', kind: 'currency' },
  number('wall_area_m2', 'm2', 0.1, 1e6),
  number('building_count', 'buildings', 1, 10_000),
  word('leak_history'),
  number('overhang_mm', 'mm', 0, 10_000),
  number('distance_to_coast_km', 'km', 0, 3000),
  number('obstruction_m', 'm', 0, 10_000),
  derived('place_source'),
  { name: 'place_km', kind: 'number', unit: 'km', derived: true },
  derived('region_source'),
  derived('country'),
  derived('region_code'),
  derived('marine_possible'),
];

/** The columns of the cladding records, in the order of the contract, then those the reader adds. */
export const wallColumns: readonly ColumnRule[] = [
  { ...text('building_id'), identifier: true },
  { ...text('wall_id'), completed: true, identifier: true },
  { name: 'azimuth_deg', kind: 'azimuth', unit: 'degrees' },
  word('material'),
  number('area_m2', 'm2', 0.1, 1e6),
  {
    name: 'installed',
    kind: 'year',
    range: [1600, 'as_of'],
    aside: [-Infinity, 'as_of'],
  },
  word('drainage'),
  number('gap_mm', 'mm', 0, 300),
  { ...number('drainage_eff_pct', '%', 0, 100), kind: 'percent' },
  word('sheathing'),
  yesNo('runoff'),
  number('windows_count', 'windows', 0, 10_000),
  yesNo('kickout'),
  yesNo('balcony_or_deck'),
  yesNo('weep_screed'),
  text('coating'),
  number('overhang_mm', 'mm', 0, 10_000),
  word('source'),
  { name: 'recorded_on', kind: 'date' },
  derived('wall_id_made'),
];

/** Headings a file must have: every line, by any one of its alternatives, each a set of headings. */
export type Needs = readonly (readonly (readonly string[])[])[];

export const buildingNeeds: Needs = [
  [['building_id']],
  [['latitude', 'longitude'], ['postal_code']],
];
export const wallNeeds: Needs = [[['building_id']], [['material']]];

const numberKinds: readonly string[] = ['number', 'money', 'percent', 'degrees', 'year', 'azimuth'];

/** Whether the column holds numbers. */
export const isNumeric = (rule: ColumnRule): rule is ColumnRule & { kind: NumberKind } =>
  numberKinds.includes(rule.kind);

/** The bound as a number. */
export const boundOf = (bound: Bound, asOf: number): number => (bound === 'as_of' ? asOf : bound);

/** Finds rules by name. Throws when there is none of that name: a mistake in our code. */
export const indexIn =
  (rules: readonly ColumnRule[]) =>
  (name: string): number => {
    const index = rules.findIndex((rule) => rule.name === name);
    if (index < 0) throw new Error(`no column ${name}`);
    return index;
  };
