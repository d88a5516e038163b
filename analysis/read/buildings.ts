import { type Columns, texts } from '../columns.ts';
import type { ColumnMap } from '../mapping/column-map.ts';
import { planOf } from '../mapping/plan.ts';
import { settledMap } from '../mapping/settle.ts';
import type { PostalCentroids } from '../place/postal.ts';
import { isBlank } from './cells.ts';
import { type ByteSource, type ReadTable, Refusal, type Remark } from './outcome.ts';
import { isComplaint, placeBuilding } from './placing.ts';
import type { RowInHand } from './row.ts';
import { buildingColumns, indexIn } from './schema.ts';
import { type Complaint, quote } from './sentences.ts';
import { type ReadOptions, readTable, type TableForm, type Verdict } from './table.ts';
import { type PartTaker, type ReadParts, readTableParts } from './table-parts.ts';
import type { Place } from './whereabouts.ts';

export interface BuildingOptions extends ReadOptions {
  /** Centres of US postal codes, for buildings without coordinates; none are placed that way where it is absent. */
  readonly postal?: PostalCentroids;
  /** How its columns are read; guessed where absent. */
  readonly map?: ColumnMap | undefined;
}

/** Identifiers of accepted buildings, and where each stands. */
export interface Firsts {
  readonly get: (id: string) => First | undefined;
  readonly set: (id: string, first: First) => void;
}

const at = indexIn(buildingColumns);
const id = at('building_id');
const region = at('region');
const postalCode = at('postal_code');
const latitude = at('latitude');
const longitude = at('longitude');
const yearBuilt = at('year_built');
const recladYear = at('reclad_year');
const placeSource = at('place_source');
const placeKm = at('place_km');
const regionSource = at('region_source');
const country = at('country');
const regionCode = at('region_code');
const marinePossible = at('marine_possible');

const written = (text: string): string => (isBlank(text) ? '' : text);

/** Where an accepted building stands: its row in the file, its place in the table. */
interface First {
  readonly row: number;
  readonly place: number;
}

function judgeId(hand: RowInHand, firsts: Firsts, joins: boolean): Verdict {
  const key = hand.text[id];
  const cell = { column: 'building_id', value: hand.raw[id]! };
  if (!key) {
    return {
      ...cell,
      code: 'blank-id',
      says: 'building_id is blank. Give the building an identifier of its own.',
    };
  }
  const first = firsts.get(key);
  if (first === undefined) return null;
  if (joins) return { joins: first.place };
  const says = `building_id ${quote(key)} is already used in row ${first.row}. Give each building an identifier of its own, or merge the two rows.`;
  return { ...cell, code: 'repeat-id', says };
}

function settle(hand: RowInHand, place: Place): void {
  hand.number[latitude] = place.latitude;
  hand.number[longitude] = place.longitude;
  hand.text[placeSource] = place.source;
  hand.number[placeKm] = place.km;
  if (place.regionSource === 'postal code') hand.text[region] = place.region!.code;
  hand.text[regionSource] = place.regionSource;
  hand.text[country] = place.country;
  hand.text[regionCode] = place.region?.code ?? null;
  hand.text[marinePossible] = place.region?.marine_possible ?? null;
  if (place.note) hand.notes.push(place.note);
}

function judgePlace(hand: RowInHand, postal: PostalCentroids | undefined): Complaint | null {
  const found = placeBuilding(
    {
      latitudeText: written(hand.raw[latitude]!),
      longitudeText: written(hand.raw[longitude]!),
      latitude: hand.number[latitude]!,
      longitude: hand.number[longitude]!,
      region: hand.text[region]!,
      postalCode: hand.text[postalCode]!,
    },
    postal,
  );
  if (isComplaint(found)) return found;
  settle(hand, found);
  return null;
}

function judgeYears(hand: RowInHand): Complaint | null {
  if (!(hand.number[recladYear]! < hand.number[yearBuilt]!)) return null;
  const value = hand.raw[recladYear]!;
  const says = `reclad_year ${quote(value)} is before year_built ${quote(hand.raw[yearBuilt]!)}. Correct one of the two years.`;
  return { column: 'reclad_year', value, code: 'reclad-before-built', says };
}

/** `joins`: a row of a building already read is one with it, as in sheets with a row for each wall. */
function judging(
  postal: PostalCentroids | undefined,
  joins: boolean,
  firsts: Firsts = new Map<string, First>(),
): TableForm['judge'] {
  return (hand) => {
    const verdict =
      judgeId(hand, firsts, joins) ??
      judgePlace(hand, postal) ??
      hand.impossible ??
      judgeYears(hand);
    if (!verdict) firsts.set(hand.text[id]!, { row: hand.row, place: hand.place });
    return verdict;
  };
}

/** Says that no row was accepted: the commonest reason, how often it was met, and an example of it. */
export const noneAccepted = (
  file: string,
  rowsRead: number,
  times: number,
  example: string,
): Refusal =>
  new Refusal(
    file,
    `None of the ${rowsRead} rows of ${file} could be accepted. The commonest reason (${times} of ${rowsRead}), for example: ${example}`,
  );

/** The code given most often, and how often. */
function commonest(remarks: readonly Remark[]): { code: string; times: number } {
  const times = new Map<string, number>();
  for (const { code } of remarks) times.set(code, (times.get(code) ?? 0) + 1);
  const [most] = [...times].sort((a, b) => b[1] - a[1]);
  return { code: most![0], times: most![1] };
}

function refuseEmpty({ file, rowsRead, setAside }: ReadTable): never {
  const { code, times } = commonest(setAside);
  const example = setAside.find((remark) => remark.code === code)!;
  throw noneAccepted(file, rowsRead, times, example.message);
}

/** How many buildings take their region from their postal code. */
const regionsFound = (table: Columns): number =>
  texts(table, 'region_source').filter((word) => word === 'postal code').length;

function regionNotes(found: number): string[] {
  if (found === 0) return [];
  const [buildings, codes] =
    found === 1 ? ['1 building', 'its postal code'] : [`${found} buildings`, 'their postal codes'];
  const flagged = 'region_source says of which';
  return [`The region of ${buildings} is blank and read from ${codes}; ${flagged}.`];
}

/**
 * Reads the building list. Set aside: a blank or repeated building_id, a building that cannot be placed or whose
 * coordinates contradict its region, impossible years, storeys or height. Derived columns: `place_source`
 * (coordinates, postal centroid), `place_km` (reach of the postal code), `region_source` (record, postal code: a blank
 * region is filled from it), `country` (US, CA), `region_code`, `marine_possible` (yes, no).
 * Throws a `Refusal` when the file is no building list.
 */
export async function listedBuildings(
  source: ByteSource,
  options: BuildingOptions,
): Promise<ReadTable> {
  const map = options.map ?? (await settledMap(source, 'buildings', options));
  const judge = judging(options.postal, map.shape === 'wall rows');
  const form = { rules: buildingColumns, judge };
  const read = await readTable(source, form, planOf(map, 'building'), options);
  return { ...read, notes: [...read.notes, ...regionNotes(regionsFound(read.table))] };
}

/** The same; throws a `Refusal` also where none of the rows is accepted. */
export async function readBuildings(
  source: ByteSource,
  options: BuildingOptions,
): Promise<ReadTable> {
  const read = await listedBuildings(source, options);
  if (read.table.n === 0) refuseEmpty(read);
  return read;
}

/**
 * The same in parts, for lists that do not fit the memory; `firsts` remembers the identifiers. Not for lists with a row for
 * each wall, of which the rows of one building are put together.
 */
export async function buildingParts(
  source: ByteSource,
  options: BuildingOptions & { readonly map: ColumnMap },
  firsts: Firsts,
  taker: PartTaker,
): Promise<ReadParts> {
  const form = { rules: buildingColumns, judge: judging(options.postal, false, firsts) };
  let found = 0;
  const take: PartTaker['take'] = (part) => {
    found += regionsFound(part.table);
    return taker.take(part);
  };
  const plan = planOf(options.map, 'building');
  const read = await readTableParts(source, form, plan, options, { ...taker, take });
  return { ...read, notes: [...read.notes, ...regionNotes(found)] };
}
