import type { RainGrid } from '../rain/grid.ts';
import { sampleGrid } from '../rain/sample.ts';
import { csvBatches } from '../read/csv.ts';
import { type ByteSource, Refusal, type Remark } from '../read/outcome.ts';
import { remark } from '../read/sentences.ts';
import type { Watch } from '../read/text-blocks.ts';
import { type StationLayout, stationLayout } from './layout.ts';
import { type Candidate, mergePlaces } from './merge.ts';
import type { Stations } from './network.ts';
import { isComplaint, type StationRow, stationRow } from './row.ts';
import { questionUnit } from './unit-doubt.ts';

/** A file of stations as read. `rowsRead = accepted + setAside.length`; stations at one place were made one. */
export interface StationFile {
  readonly file: string;
  readonly stations: Stations;
  readonly rowsRead: number;
  readonly accepted: number;
  readonly setAside: readonly Remark[];
  /** Rows that were made one station with an earlier row. */
  readonly noted: readonly Remark[];
  /** Heading of the normals and the unit read from it. */
  readonly heading: string;
  readonly unit: string;
  /** To stand wherever the rain is. */
  readonly source: string;
  readonly period: string;
}

/** More stations than any network has: beyond them the file is a grid. */
const mostRows = 200_000;

/** The rows of a station file that can be used, before any grid is known. */
export interface GatheredStations {
  readonly file: string;
  readonly layout: StationLayout;
  readonly rows: (StationRow & { readonly row: number })[];
  readonly setAside: Remark[];
}

/** Reads the places and normals of a station file; for refusals see `readStations`. */
export async function gatherStations(
  source: ByteSource,
  watch: Watch = {},
): Promise<GatheredStations> {
  let into: GatheredStations | undefined;
  const file = source.name;
  for await (const { records, rows, torn, decimalComma } of csvBatches(source, watch)) {
    records.forEach((cells, i) => {
      if (!into) {
        into = { file, layout: stationLayout(file, cells), rows: [], setAside: [] };
        return;
      }
      const line = { cells, decimalComma, torn: torn.has(i) };
      const found = stationRow(into.layout, line);
      if (isComplaint(found)) into.setAside.push(remark(file, rows[i]!, found));
      else into.rows.push({ ...found, row: rows[i]! });
    });
    refuseMany(file, into?.rows.length ?? 0);
  }
  return into!;
}

function refuseMany(file: string, rows: number): void {
  if (rows <= mostRows) return;
  throw new Refusal(
    file,
    `${file} has more than ${mostRows / 1000},000 stations. Cut it to the region of the buildings, or load it as a rain grid.`,
  );
}

function refuseNone(file: string, rows: number, setAside: readonly Remark[]): void {
  if (rows > 0) return;
  const first = setAside[0];
  const reason = first
    ? ` The first reason: ${first.message}`
    : ' There are no rows below its headings.';
  throw new Refusal(file, `No row of ${file} can be used as a station.${reason}`);
}

/** Looks every row up on the grid; those too far from it are set aside, since they cannot tell how rain follows it. */
function onGrid({ file, layout, rows, setAside }: GatheredStations, grid: RainGrid): Candidate[] {
  const { mm } = sampleGrid(
    grid,
    Float64Array.from(rows, ({ longitude }) => longitude),
    Float64Array.from(rows, ({ latitude }) => latitude),
  );
  return rows.flatMap((row, i) => {
    const gridMm = mm[i]!;
    if (!Number.isNaN(gridMm)) {
      return [{ ...row, gridMm, mm: row.normal * layout.normal.mmPerYear }];
    }
    setAside.push(
      remark(file, row.row, {
        column: 'latitude',
        value: String(row.latitude),
        code: 'station-off-grid',
        says: `the station (latitude ${row.latitude}, longitude ${row.longitude}) lies too far from every rain value of the grid to be compared with it. Check its coordinates, or load a grid that reaches it.`,
      }),
    );
    return [];
  });
}

const notStated = 'period not stated';

/** The periods that the rows name, in words. */
function periodOf(rows: readonly StationRow[]): string {
  const periods = [...new Set(rows.flatMap(({ period }) => period ?? []))];
  const [first = notStated, second] = periods;
  if (second === undefined) return first;
  return periods.length === 2
    ? `${first}; ${second}`
    : `${periods.length} periods, ${first} among them`;
}

const stationsOf = (rows: readonly Candidate[]): Stations => ({
  n: rows.length,
  longitude: Float64Array.from(rows, ({ longitude }) => longitude),
  latitude: Float64Array.from(rows, ({ latitude }) => latitude),
  mm: Float64Array.from(rows, ({ mm }) => mm),
  gridMm: Float64Array.from(rows, ({ gridMm }) => gridMm),
  row: Int32Array.from(rows, ({ row }) => row),
  name: rows.map(({ name }) => name),
});

/** Stations compared with the grid that they are to adjust. Throws a `Refusal` where no row can be used. */
export function stationsOnGrid(gathered: GatheredStations, grid: RainGrid): StationFile {
  const { file, layout, rows, setAside } = gathered;
  const rowsRead = rows.length + setAside.length;
  const usable = onGrid(gathered, grid);
  refuseNone(file, usable.length, setAside);
  questionUnit(file, layout.normal, usable);
  const { heading, unit } = layout.normal;
  const { stations, noted } = mergePlaces(file, heading, usable);
  return {
    file,
    stations: stationsOf(stations),
    rowsRead,
    accepted: usable.length,
    setAside: setAside.sort((a, b) => a.row - b.row),
    noted,
    heading,
    unit,
    source: `${file}, column ${heading}`,
    period: periodOf(usable),
  };
}

/**
 * Reads rain stations from a CSV with latitude, longitude (degrees) and annual normal, its unit in the heading; a name
 * and a period if it has them. The grid is the one that the stations are to adjust. Throws a `Refusal` where columns or
 * unit are missing or doubtful and where no row can be used; the signal's reason when aborted.
 */
export const readStations = async (
  source: ByteSource,
  grid: RainGrid,
  watch: Watch = {},
): Promise<StationFile> => stationsOnGrid(await gatherStations(source, watch), grid);
