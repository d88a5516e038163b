import { type Column, type Columns, numbers } from './columns.ts';
import type { Assets } from './inputs.ts';
import type { Window } from './rain/formats/window.ts';
import type { Grid, RainGrid } from './rain/grid.ts';
import { sampleValues } from './rain/sample.ts';
import type { ByteSource, Remark } from './read/outcome.ts';
import type { FileReport, Inputs, Role, Watching } from './session-types.ts';
import type { GatheredStations, StationFile } from './stations/read.ts';
import type { DrivingRain } from './weather/record.ts';

/** Readers of files that few portfolios come with: fetched with the first of them. */
const grids = () => import('./rain/formats/read.ts');
const stationReader = () => import('./stations/read.ts');
const weather = async (file: ByteSource) => {
  const [{ readWeather }, { drivingRain }] = await Promise.all([
    import('./weather/read.ts'),
    import('./weather/record.ts'),
  ]);
  const read = await readWeather(file);
  return { ...read, drivingRain: drivingRain(read) };
};

/** What stands beside the tables: grids, stations, the weather record. */
export interface SideFiles {
  readonly grid: RainGrid;
  readonly stations: StationFile | null;
  readonly builtInStations: boolean;
  readonly weather: DrivingRain | null;
  /** What the grids say at buildings: columns to add, or to put in the place of the record's. */
  readonly atBuildings: (buildings: Columns) => Readonly<Record<string, Column>>;
  readonly reports: readonly FileReport[];
  readonly remarked: readonly Remarked[];
}

interface Remarked {
  readonly setAside: readonly Remark[];
  readonly noted: readonly Remark[];
}

/**
 * Reads the files beside the tables; of grids the part around the `buildings`. Throws a Refusal when one of them cannot be
 * used.
 */
export async function readSideFiles(
  inputs: Inputs,
  assets: Assets,
  buildings: Columns,
  watching: Watching,
): Promise<SideFiles> {
  const read = async <T>(
    file: ByteSource | undefined,
    how: (file: ByteSource) => Promise<T>,
  ): Promise<T | undefined> => {
    if (!file) return undefined;
    watching.signal?.throwIfAborted();
    watching.onProgress?.({ what: `Reading ${file.name}`, share: null });
    return how(file);
  };
  const gathered = await read(inputs.stations, async (file) =>
    (await stationReader()).gatherStations(file),
  );
  const places = placesOf(buildings);
  // Stations beyond the buildings need the grid too: they are compared with it.
  const window = windowAround([places, ...(gathered ? [placesOfStations(gathered)] : [])]);
  const rain = await read(inputs.rain, async (file) => (await grids()).readRain(file, window));
  const grid = rain?.grid ?? assets.grid;
  const stations = gathered && (await stationReader()).stationsOnGrid(gathered, grid);
  const around = windowAround([places]);
  const wind = await read(inputs.wind, async (file) =>
    (await grids()).readGrid(file, 'wind', around),
  );
  const temperature = await read(inputs.temperature, async (file) =>
    (await grids()).readGrid(file, 'temperature', around),
  );
  const record = await read(inputs.weather, weather);
  return {
    grid,
    stations: stations ?? (rain ? null : assets.stations),
    builtInStations: !stations && !rain,
    weather: record?.drivingRain ?? null,
    atBuildings: (asked) => ({
      ...(wind && windColumn(wind.grid, placesOf(asked))),
      ...(temperature && temperatureColumns(temperature.grid, placesOf(asked), asked)),
    }),
    reports: [
      ...(rain ? [sideReport('rain', inputs.rain!.name, rain)] : []),
      ...(wind ? [sideReport('wind', inputs.wind!.name, wind)] : []),
      ...(temperature ? [sideReport('temperature', inputs.temperature!.name, temperature)] : []),
      ...(stations ? [sideReport('stations', stations.file, stations)] : []),
      ...(record
        ? [sideReport('weather', record.file, { ...record, accepted: record.hours.n })]
        : []),
    ],
    remarked: [rain, wind, temperature, stations, record].flatMap((file) => file ?? []),
  };
}

interface Places {
  readonly longitude: ArrayLike<number>;
  readonly latitude: ArrayLike<number>;
}

const placesOf = (buildings: Columns) => ({
  longitude: numbers(buildings, 'longitude'),
  latitude: numbers(buildings, 'latitude'),
});

const placesOfStations = ({ rows }: GatheredStations): Places => ({
  longitude: rows.map(({ longitude }) => longitude),
  latitude: rows.map(({ latitude }) => latitude),
});

/** The box around all places, degrees; null where there is none. */
function windowAround(all: readonly Places[]): Window | null {
  const box = { west: Infinity, south: Infinity, east: -Infinity, north: -Infinity };
  for (const { longitude, latitude } of all) {
    for (let i = 0; i < longitude.length; i += 1) {
      box.west = Math.min(box.west, longitude[i]!);
      box.east = Math.max(box.east, longitude[i]!);
      box.south = Math.min(box.south, latitude[i]!);
      box.north = Math.max(box.north, latitude[i]!);
    }
  }
  return box.west > box.east ? null : box;
}

/** All-hours mean wind at each building, m/s to 0.01. */
function windColumn(grid: Grid, { longitude, latitude }: ReturnType<typeof placesOf>) {
  const { values } = sampleValues(grid, longitude, latitude);
  return { mean_wind_ms: values.map((value) => Math.round(value * 100) / 100) };
}

/** Mean temperature, °C to 0.1, of the record and, where that is blank, of the grid; and which of the two it is. */
function temperatureColumns(
  grid: Grid,
  { longitude, latitude }: ReturnType<typeof placesOf>,
  buildings: Columns,
) {
  const own = numbers(buildings, 'mean_temp_c');
  const { values } = sampleValues(grid, longitude, latitude);
  return {
    mean_temp_c: own.map((value, i) =>
      Number.isNaN(value) ? Math.round(values[i]! * 10) / 10 : value,
    ),
    mean_temp_of_grid: own.map((value) => (Number.isNaN(value) ? 1 : 0)),
  };
}

/** Files beside the portfolio keep no columns of the user's own. */
const sideReport = (
  role: Role,
  file: string,
  read: Remarked & {
    readonly rowsRead: number;
    readonly accepted: number;
    readonly assumed?: readonly string[];
  },
): FileReport => ({
  file,
  role,
  records: read.rowsRead,
  rowsRead: read.rowsRead,
  accepted: read.accepted,
  joined: 0,
  setAside: read.setAside.length,
  noted: read.noted.length,
  unknownColumns: [],
  map: null,
  notes: read.assumed ?? [],
});
