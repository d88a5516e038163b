import type { PostalCentroids } from '../place/postal.ts';
import { isBlank } from './cells.ts';
import { type ByteSource, type ReadTable, Refusal, type Remark } from './outcome.ts';
import { isComplaint, type Place, placeBuilding } from './placing.ts';
import { buildingColumns, buildingNeeds, indexIn } from './schema.ts';
import { type Complaint, quote } from './sentences.ts';
import { type ReadOptions, type RowInHand, readTable } from './table.ts';

export interface BuildingOptions extends ReadOptions {
  /** Centres of US postal codes, for buildings without coordinates; none are placed that way where it is absent. */
  readonly postal?: PostalCentroids;
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
const country = at('country');
const regionCode = at('region_code');
const marinePossible = at('marine_possible');

const written = (text: string): string => (isBlank(text) ? '' : text);

function judgeId(hand: RowInHand, firstRows: ReadonlyMap<string, number>): Complaint | null {
  const key = hand.text[id];
  const cell = { column: 'building_id', value: hand.raw[id]! };
  if (!key) {
    return {
      ...cell,
      code: 'blank-id',
      says: 'building_id is blank. Give the building an identifier of its own.',
    };
  }
  const first = firstRows.get(key);
  if (first === undefined) return null;
  const says = `building_id ${quote(key)} is already used in row ${first}. Give each building an identifier of its own, or merge the two rows.`;
  return { ...cell, code: 'repeat-id', says };
}

function settle(hand: RowInHand, place: Place): void {
  hand.number[latitude] = place.latitude;
  hand.number[longitude] = place.longitude;
  hand.text[placeSource] = place.source;
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

function judging(postal: PostalCentroids | undefined): (hand: RowInHand) => Complaint | null {
  const firstRows = new Map<string, number>();
  return (hand) => {
    const complaint =
      judgeId(hand, firstRows) ?? judgePlace(hand, postal) ?? hand.impossible ?? judgeYears(hand);
    if (!complaint) firstRows.set(hand.text[id]!, hand.row);
    return complaint;
  };
}

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
  throw new Refusal(
    file,
    `None of the ${rowsRead} rows of ${file} could be accepted. The commonest reason (${times} of ${rowsRead}), for example: ${example.message}`,
  );
}

/**
 * Reads the building list. Set aside: a blank or repeated building_id, a building that cannot be placed or whose
 * coordinates contradict its region, impossible years, storeys or height. Derived columns: `place_source`
 * (coordinates, postal centroid), `country` (US, CA), `region_code`, `marine_possible` (yes, no).
 * Throws a `Refusal` when the file is no building list or none of its rows is accepted.
 */
export async function readBuildings(
  source: ByteSource,
  options: BuildingOptions,
): Promise<ReadTable> {
  const form = { rules: buildingColumns, needs: buildingNeeds, judge: judging(options.postal) };
  const read = await readTable(source, form, options);
  if (read.table.n === 0) refuseEmpty(read);
  return read;
}
