import { type Column, type Columns, texts } from './columns.ts';
import type { PostalCentroids } from './place/postal.ts';
import { readRainCsv } from './rain/csv-grid.ts';
import type { RainGrid } from './rain/grid.ts';
import { readBuildings } from './read/buildings.ts';
import { digesting } from './read/digest.ts';
import type { ReadTable } from './read/outcome.ts';
import { readWalls } from './read/walls.ts';
import type { FileReport, Inputs, ReadReport, Role } from './session-types.ts';

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
  readonly report: ReadReport;
  /** SHA-256 of each file by role. */
  readonly digests: Readonly<Record<string, string>>;
  readonly files: { readonly buildings: string; readonly walls: string | null };
}

/** Reads every file of the inputs. Throws a Refusal, having changed nothing, when one of them cannot be used. */
export async function readInputs(inputs: Inputs, assets: Assets, asOf: number): Promise<Portfolio> {
  const digests: Record<string, string> = {};
  const rain = inputs.rain ? await hashed('rain', inputs.rain, digests, readRainCsv) : undefined;
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
    grid: rain?.grid ?? assets.grid,
    report: {
      demo: inputs.demo ?? false,
      files: [
        fileReport('buildings', read),
        ...(walls ? [fileReport('walls', walls)] : []),
        ...(rain ? [rainReport(inputs.rain!.name, rain)] : []),
      ],
    },
    digests,
    files: { buildings: inputs.buildings.name, walls: inputs.walls?.name ?? null },
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

const rainReport = (file: string, read: Awaited<ReturnType<typeof readRainCsv>>): FileReport => ({
  file,
  role: 'rain',
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
