import { type Column, type Columns, texts } from './columns.ts';
import type { PostalCentroids } from './place/postal.ts';
import { readRainCsv } from './rain/csv-grid.ts';
import type { RainGrid } from './rain/grid.ts';
import { readBuildings } from './read/buildings.ts';
import { digesting } from './read/digest.ts';
import type { ReadTable } from './read/outcome.ts';
import { readWalls } from './read/walls.ts';
import type { FileReport, Inputs, ReadReport, Role } from './session-types.ts';
import { readBuiltInStations } from './stations/built-in.ts';
import { readStations, type StationFile } from './stations/read.ts';
import { readWeather } from './weather/read.ts';
import { type DrivingRain, drivingRain } from './weather/record.ts';

/** What ships with the product and is read once. */
export interface Assets {
  readonly grid: RainGrid;
  readonly postal: PostalCentroids;
}

/** A portfolio as read: nothing scored yet. Building ordinals `b` are row numbers of `buildings`. */
export interface Portfolio {
  /** Accepted buildings in order of building_id. */
  readonly buildings: Columns;
  /** The user's own columns of the building list, same rows. */
  readonly extra: Columns;
  /** Accepted wall records, with `b`. */
  readonly walls: Columns;
  readonly grid: RainGrid;
  /** Stations that may adjust the grid; null for a grid of the user's own without stations of theirs. */
  readonly stations: StationFile | null;
  /** Whether these are the stations that ship. */
  readonly builtInStations: boolean;
  readonly weather: DrivingRain | null;
  readonly report: ReadReport;
  /** SHA-256 of each file by role. */
  readonly digests: Readonly<Record<string, string>>;
  readonly files: Readonly<Record<Role, string | null>>;
}

/** Reads every file of the inputs. Throws a Refusal, having changed nothing, when one of them cannot be used. */
export async function readInputs(inputs: Inputs, assets: Assets, asOf: number): Promise<Portfolio> {
  const digests: Record<string, string> = {};
  const rain = inputs.rain ? await hashed('rain', inputs.rain, digests, readRainCsv) : undefined;
  const grid = rain?.grid ?? assets.grid;
  const stations = inputs.stations
    ? await hashed('stations', inputs.stations, digests, (source) => readStations(source, grid))
    : undefined;
  const record = inputs.weather
    ? await hashed('weather', inputs.weather, digests, (source) => readWeather(source))
    : undefined;
  const options = { asOf, postal: assets.postal };
  const read = await hashed('buildings', inputs.buildings, digests, (source) =>
    readBuildings(source, options),
  );
  const order = sortedBy(texts(read.table, 'building_id'));
  const buildings = permuted(read.table, order);
  const ordinals = new Map(texts(buildings, 'building_id').map((id, b) => [id!, b]));
  const walls = inputs.walls
    ? await hashed('walls', inputs.walls, digests, (source) =>
        readWalls(source, { asOf, buildingIds: new Set(ordinals.keys()) }),
      )
    : undefined;
  return {
    buildings: {
      n: buildings.n,
      cols: { b: Float64Array.from(order, (_, b) => b), ...buildings.cols },
    },
    extra: permuted(read.extra, order),
    walls: walls ? withOrdinals(walls.table, ordinals) : noWalls,
    grid,
    stations: stations ?? (rain ? null : await readBuiltInStations(grid)),
    builtInStations: !stations && !rain,
    weather: record ? drivingRain(record) : null,
    report: {
      demo: inputs.demo ?? false,
      files: [
        fileReport('buildings', read),
        ...(walls ? [fileReport('walls', walls)] : []),
        ...(rain ? [sideReport('rain', inputs.rain!.name, rain)] : []),
        ...(stations ? [sideReport('stations', stations.file, stations)] : []),
        ...(record
          ? [sideReport('weather', record.file, { ...record, accepted: record.hours.n })]
          : []),
      ],
    },
    digests,
    files: {
      buildings: inputs.buildings.name,
      walls: inputs.walls?.name ?? null,
      rain: inputs.rain?.name ?? null,
      stations: inputs.stations?.name ?? null,
      weather: inputs.weather?.name ?? null,
    },
  };
}

async function hashed<T>(
  role: Role,
  file: Inputs['buildings'],
  digests: Record<string, string>,
  read: (source: Inputs['buildings']) => Promise<T>,
): Promise<T> {
  const { source, digest } = digesting(file);
  const result = await read(source);
  digests[role] = digest();
  return result;
}

const fileReport = (role: Role, read: ReadTable): FileReport => ({
  file: read.file,
  role,
  rowsRead: read.rowsRead,
  accepted: read.table.n,
  setAside: read.setAside,
  noted: read.noted,
  unknownColumns: Object.keys(read.extra.cols),
});

/** Files beside the portfolio keep no columns of the user's own. */
const sideReport = (
  role: Role,
  file: string,
  read: Pick<FileReport, 'rowsRead' | 'accepted' | 'setAside' | 'noted'>,
): FileReport => ({
  file,
  role,
  rowsRead: read.rowsRead,
  accepted: read.accepted,
  setAside: read.setAside,
  noted: read.noted,
  unknownColumns: [],
});

/** Row numbers in order of the ids, by code unit: the same on every machine. */
function sortedBy(ids: readonly (string | null)[]): number[] {
  return ids.map((_, i) => i).sort((i, j) => (ids[i]! < ids[j]! ? -1 : 1));
}

function permuted(table: Columns, order: readonly number[]): Columns {
  const move = (column: Column): Column =>
    column instanceof Float64Array
      ? Float64Array.from(order, (i) => column[i]!)
      : order.map((i) => column[i] ?? null);
  const entries = Object.entries(table.cols).map(([name, column]) => [name, move(column)] as const);
  return { n: table.n, cols: Object.fromEntries(entries) };
}

function withOrdinals(walls: Columns, ordinals: ReadonlyMap<string, number>): Columns {
  const b = Float64Array.from(texts(walls, 'building_id'), (id) => ordinals.get(id!)!);
  return { n: walls.n, cols: { b, ...walls.cols } };
}

const noNumbers = new Float64Array(0);
/** No wall file: an empty table with the columns that the method reads. */
const noWalls: Columns = {
  n: 0,
  cols: {
    ...Object.fromEntries(
      ['b', 'row', 'azimuth_deg', 'area_m2', 'installed', 'gap_mm', 'drainage_eff_pct'].map(
        (name) => [name, noNumbers],
      ),
    ),
    ...Object.fromEntries(
      ['wall_id', 'material', 'drainage', 'sheathing', 'runoff', 'source', 'recorded_on'].map(
        (name) => [name, []],
      ),
    ),
  },
};
