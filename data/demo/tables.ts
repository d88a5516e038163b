/// <reference path="../../analysis/assets.d.ts" />
import { csvTable } from '../../analysis/csv-table.ts';
import backingCsv from './backing.csv?raw';
import behindCsv from './behind.csv?raw';
import blanksCsv from './blanks.csv?raw';
import byClimateCsv from './cladding_by_climate.csv?raw';
import byEraCsv from './cladding_by_era.csv?raw';
import byKindCsv from './cladding_by_kind.csv?raw';
import climatesCsv from './climates.csv?raw';
import dirtCsv from './dirt.csv?raw';
import erasCsv from './eras.csv?raw';
import kindsCsv from './kinds.csv?raw';
import placesCsv from './places.csv?raw';
import { type Weighted, weighted } from './random.ts';
import spellingsCsv from './spellings.csv?raw';
import townsCsv from './towns.csv?raw';
import wordsCsv from './words.csv?raw';

type Row = Readonly<Record<string, string>>;

const num = (row: Row, name: string): number => Number(row[name]);
const weigh = (row: Row): number => num(row, 'weight');

function grouped(rows: readonly Row[], key: (row: Row) => string): Map<string, Row[]> {
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const group = groups.get(key(row));
    if (group) group.push(row);
    else groups.set(key(row), [row]);
  }
  return groups;
}

/** A neighbourhood: a postal code and its position, degrees. */
export interface Place {
  readonly postalCode: string;
  readonly latitude: number;
  readonly longitude: number;
}

interface Climate {
  readonly name: string;
  /** Share of low buildings with walls of masonry or concrete, %. */
  readonly solidPct: number;
  readonly terrain: Weighted<string>;
  readonly lowRoofPct: number;
  readonly leakPct: number;
}

export interface Town {
  readonly city: string;
  readonly region: string;
  readonly country: 'US' | 'CA';
  readonly code: string;
  readonly climate: Climate;
  readonly climateZone: string;
  readonly moistureIndex: string;
  readonly hdd18: string;
  readonly meanTemp: string;
  /** km; NaN far inland. */
  readonly coastKm: number;
  readonly places: readonly Place[];
}

export interface Kind {
  readonly name: string;
  readonly use: string;
  readonly blocks: readonly [number, number];
  readonly storeys: readonly [number, number];
  /** Height of a storey, front and depth of a building, distance to the next one: m. */
  readonly storeyM: number;
  readonly frontM: number;
  readonly depthM: number;
  readonly apartM: number;
  readonly construction: string;
  readonly frame: string;
  readonly steepPct: number;
  /** Insured value per m² of floor. */
  readonly valueM2: number;
}

export interface Era {
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

const climates = new Map(
  csvTable(climatesCsv).map((row): [string, Climate] => [
    row.climate!,
    {
      name: row.climate!,
      solidPct: num(row, 'solid_pct'),
      terrain: weighted(['severe', 'medium', 'sheltered'], (class_) => num(row, class_)),
      lowRoofPct: num(row, 'low_roof_pct'),
      leakPct: num(row, 'leak_pct'),
    },
  ]),
);

const placesOf = grouped(csvTable(placesCsv), (row) => `${row.city}, ${row.region}`);

const townOf = (row: Row): Town => ({
  city: row.city!,
  region: row.region!,
  country: row.country as 'US' | 'CA',
  code: row.code!,
  climate: climates.get(row.climate!)!,
  climateZone: row.climate_zone!,
  moistureIndex: row.moisture_index!,
  hdd18: row.hdd18_c!,
  meanTemp: row.mean_temp_c!,
  coastKm: row.coast_km === '' ? Number.NaN : num(row, 'coast_km'),
  places: placesOf.get(`${row.city}, ${row.region}`)!.map((place) => ({
    postalCode: place.postal_code!,
    latitude: num(place, 'latitude'),
    longitude: num(place, 'longitude'),
  })),
});

const kindOf = (row: Row): Kind => ({
  name: row.kind!,
  use: row.use!,
  blocks: [num(row, 'blocks_from'), num(row, 'blocks_to')],
  storeys: [num(row, 'storeys_from'), num(row, 'storeys_to')],
  storeyM: num(row, 'storey_m'),
  frontM: num(row, 'front_m'),
  depthM: num(row, 'depth_m'),
  apartM: num(row, 'apart_m'),
  construction: row.construction!,
  frame: row.frame!,
  steepPct: num(row, 'steep_pct'),
  valueM2: num(row, 'value_m2'),
});

const eraOf = (row: Row): Era => ({ name: row.era!, from: num(row, 'from'), to: num(row, 'to') });

/** Rows as things to draw by their column `weight`. */
function drawnFrom<T>(rows: readonly Row[], make: (row: Row) => T): Weighted<T> {
  const { values, cumulative } = weighted(rows, weigh);
  return { values: values.map(make), cumulative };
}

export const towns = drawnFrom(csvTable(townsCsv), townOf);
export const kinds = drawnFrom(csvTable(kindsCsv), kindOf);
export const eras = drawnFrom(csvTable(erasCsv), eraOf);

/** The era a year falls in. */
export const eraOfYear = (year: number): Era => eras.values.findLast((era) => year >= era.from)!;

/** Weighted rows by a key of two columns. */
function drawnBy<T>(
  text: string,
  keys: readonly [string, string],
  make: (row: Row) => T,
): Map<string, Weighted<T>> {
  const groups = grouped(csvTable(text), (row) => `${row[keys[0]]} ${row[keys[1]]}`);
  return new Map([...groups].map(([key, rows]) => [key, drawnFrom(rows, make)]));
}

/** What is behind a cladding: a layer and the range of its gap, mm, '' where none is stated. */
export interface Behind {
  readonly drainage: string;
  readonly gap: readonly [number, number] | null;
}

/** Layers by family and era, `any` for every era. */
export const behind = drawnBy(
  behindCsv,
  ['family', 'era'],
  (row): Behind => ({
    drainage: row.drainage!,
    gap: row.gap_from_mm === '' ? null : [num(row, 'gap_from_mm'), num(row, 'gap_to_mm')],
  }),
);

/** Sheathing by frame and era, `any` for every era. */
export const backing = drawnBy(backingCsv, ['frame', 'era'], (row) => row.sheathing!);

/** Ways of writing a value, by column and value. */
export const spellings: ReadonlyMap<string, ReadonlyMap<string, Weighted<string>>> = new Map(
  [...grouped(csvTable(spellingsCsv), (row) => row.column!)].map(([column, rows]) => [
    column,
    new Map(
      [...grouped(rows, (row) => row.value!)].map(([value, ways]) => [
        value,
        drawnFrom(ways, (row) => row.written!),
      ]),
    ),
  ]),
);

const factors = (text: string) =>
  new Map(csvTable(text).map((row) => [row.material!, row] as const));
const byClimate = factors(byClimateCsv);
const byEra = factors(byEraCsv);
const byKind = factors(byKindCsv);
const claddings = new Map<string, Weighted<string>>();

/** Claddings of a climate, era and kind of building: the product of the three tables. */
export function cladding(climate: string, era: string, kind: string): Weighted<string> {
  const key = `${climate} ${era} ${kind}`;
  const known = claddings.get(key);
  if (known) return known;
  const made = weighted(
    [...byClimate.keys()],
    (m) => num(byClimate.get(m)!, climate) * num(byEra.get(m)!, era) * num(byKind.get(m)!, kind),
  );
  claddings.set(key, made);
  return made;
}

const wordLists = new Map(
  csvTable(wordsCsv).map((row) => [row.list!, row.words!.split('|')] as const),
);

export const words = (list: string): readonly string[] => wordLists.get(list)!;

/** Share of blanks by column where records are neither good nor poor, %, for `buildings` and `walls`. */
export const blanks: ReadonlyMap<string, ReadonlyMap<string, number>> = new Map(
  [...grouped(csvTable(blanksCsv), (row) => row.table!)].map(([table, rows]) => [
    table,
    new Map(rows.map((row) => [row.column!, num(row, 'pct')])),
  ]),
);

/** Mistakes of data entry and how many of each there are in a thousand buildings. */
export const mistakes: readonly (readonly [string, number])[] = csvTable(dirtCsv).map((row) => [
  row.mistake!,
  num(row, 'per_thousand'),
]);
