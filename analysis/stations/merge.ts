import type { Remark } from '../read/outcome.ts';
import { remark } from '../read/sentences.ts';
import type { StationRow } from './row.ts';

/** A usable row with its number, what the grid says there, and its normal in mm a year. */
export interface Candidate extends StationRow {
  readonly row: number;
  readonly gridMm: number;
  readonly mm: number;
}

/** Places are the same when they agree to this share of a degree: about ten metres. */
const perDegree = 1e4;

const turn = 360 * perDegree;

/** The meridians of −180° and 180° are one. */
const placeOf = ({ longitude, latitude }: Candidate): string =>
  `${(Math.round(longitude * perDegree) + turn) % turn} ${Math.round(latitude * perDegree)}`;

function byPlace(rows: readonly Candidate[]): Candidate[][] {
  const places = new Map<string, Candidate[]>();
  for (const row of rows) {
    const key = placeOf(row);
    const list = places.get(key);
    if (list) list.push(row);
    else places.set(key, [row]);
  }
  return [...places.values()];
}

const about = (file: string, heading: string, row: Candidate, code: string, says: string): Remark =>
  remark(file, row.row, { column: heading, value: String(row.normal), code, says });

/** What is said of a row whose place an earlier one has. */
function noteOf(file: string, heading: string, first: Candidate, again: Candidate): Remark {
  if (again.mm === first.mm) {
    const says = `this station stands where that of row ${first.row} does, with the same normal: the two count as one.`;
    return about(file, heading, again, 'station-repeat', says);
  }
  const says = `this station stands where that of row ${first.row} does, with another normal (${again.normal}, not ${first.normal}): the mean of their logarithms counts for the place. If one is out of date, remove it.`;
  return about(file, heading, again, 'station-differs', says);
}

/** One station of all rows at one place: the first, with the mean of their logarithms. */
function merged(rows: readonly Candidate[]): Candidate {
  const [first] = rows as readonly [Candidate];
  if (rows.every(({ mm }) => mm === first.mm)) return first;
  const ln = rows.reduce((sum, { mm }) => sum + Math.log(mm), 0) / rows.length;
  return { ...first, mm: Math.round(Math.exp(ln) * 1e4) / 1e4 };
}

/** One station a place, in the order of the first rows, and a note for every row that came in with another. */
export function mergePlaces(
  file: string,
  heading: string,
  rows: readonly Candidate[],
): { readonly stations: readonly Candidate[]; readonly noted: readonly Remark[] } {
  const places = byPlace(rows);
  const noted = places.flatMap(([first, ...again]) =>
    again.map((row) => noteOf(file, heading, first!, row)),
  );
  return { stations: places.map(merged), noted: noted.sort((a, b) => a.row - b.row) };
}
