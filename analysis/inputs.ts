import { type Column, type Columns, numbers, texts } from './columns.ts';
import { editsOf } from './edits.ts';
import type { ColumnMap } from './mapping/column-map.ts';
import { settledMap } from './mapping/settle.ts';
import type { PostalCentroids } from './place/postal.ts';
import type { RainGrid } from './rain/grid.ts';
import { readBuildings } from './read/buildings.ts';
import type { ByteSource, ReadTable, Remark } from './read/outcome.ts';
import { Refusal } from './read/outcome.ts';
import { joinWallFiles, type WallRecords } from './read/wall-files.ts';
import { readWalls } from './read/walls.ts';
import type { FileReport, Inputs, MarkedRemark, ReadReport, Watching } from './session-types.ts';
import { readSideFiles, type SideFiles } from './side-files.ts';
import type { StationFile } from './stations/read.ts';
import type { DrivingRain } from './weather/record.ts';

/** What ships with the product and is read once. */
export interface Assets {
  readonly grid: RainGrid;
  /** Stations that adjust this grid. */
  readonly stations: StationFile;
  readonly postal: PostalCentroids;
}

/** A portfolio as read: nothing scored yet. Building ordinals `b` are row numbers of `buildings`. */
export interface Portfolio {
  /** Accepted buildings in order of building_id. */
  readonly buildings: Columns;
  /** The user's own columns of the building list, same rows. */
  readonly extra: Columns;
  /** Accepted wall records, with `b`, and `file` (index into `wallFiles`). */
  readonly walls: Columns;
  readonly wallFiles: readonly string[];
  /** The user's own columns of each wall file, with the rows of the file that they belong to, ascending. */
  readonly wallExtras: readonly WallExtra[];
  readonly grid: RainGrid;
  /** Stations that may adjust the grid; null for a grid of the user's own without stations of theirs. */
  readonly stations: StationFile | null;
  /** Whether these are the stations that ship. */
  readonly builtInStations: boolean;
  readonly weather: DrivingRain | null;
  readonly report: ReadReport;
  /** In the order of file and row. */
  readonly remarks: readonly MarkedRemark[];
  readonly inputs: Inputs;
}

interface WallExtra {
  readonly row: Float64Array;
  readonly extra: Columns;
}

/** A table file, what it was read as, and how. */
interface TableRead {
  readonly read: ReadTable;
  readonly map: ColumnMap;
}

/** Reads every file of the inputs. Throws a Refusal, having changed nothing, when one of them cannot be used. */
export async function readInputs(
  inputs: Inputs,
  assets: Assets,
  asOf: number,
  watching: Watching = {},
): Promise<Portfolio> {
  refuseSameNames(inputs);
  const list = await readList(inputs, assets, asOf, watching);
  const order = sortedBy(texts(list.read.table, 'building_id'));
  const buildings = inOrderOf(list.read.table, order);
  const ordinals = ordinalsById(
    wallSources(inputs, list.map).length > 0 ? texts(buildings, 'building_id') : [],
  );
  const walls = await readWallFiles(inputs, list.map, ordinals, asOf, watching);
  const records = joinWallFiles(walls.map(({ read }) => read));
  const side = await readSideFiles(inputs, assets, buildings, watching);
  return {
    buildings: {
      n: buildings.n,
      cols: { b: ordinalsOf(order), ...buildings.cols, ...side.atBuildings(buildings) },
    },
    extra: inOrderOf(list.read.extra, order),
    walls: withOrdinals(records.table, ordinals),
    wallFiles: records.files,
    wallExtras: walls.map(({ read }) => ({ row: numbers(read.table, 'row'), extra: read.extra })),
    grid: side.grid,
    stations: side.stations,
    builtInStations: side.builtInStations,
    weather: side.weather,
    report: { demo: inputs.demo ?? false, files: reportsOf(list, walls, records, side) },
    remarks: remarksOf(list, walls, records, side),
    inputs,
  };
}

/** The wall records as the engine holds them: it knows the building by its ordinal. */
export function wallRecord({ walls: { n, cols } }: Portfolio): Columns {
  const kept = Object.entries(cols).filter(([name]) => name !== 'building_id');
  return { n, cols: Object.fromEntries(kept) };
}

/** Every file of the inputs, in the order in which they are read. */
export const filesOf = (inputs: Inputs): readonly ByteSource[] => [
  inputs.buildings,
  ...(inputs.walls ?? []),
  ...[inputs.rain, inputs.wind, inputs.temperature, inputs.stations, inputs.weather].flatMap(
    (file) => file ?? [],
  ),
];

/** Throws a Refusal where two files of the inputs share a name. */
export function refuseSameNames(inputs: Inputs): void {
  const names = filesOf(inputs).map(({ name }) => name);
  const twice = names.find((name, i) => names.indexOf(name) < i);
  if (twice === undefined) return;
  throw new Refusal(
    twice,
    `Two of the files are named ${twice}, so remarks and corrections could not tell them apart. Rename one of them.`,
  );
}

/** How a table file is read but for its map, what of it is reported, and what stops the reading. */
export function tableOptions(
  inputs: Inputs,
  source: ByteSource,
  table: 'building' | 'wall',
  asOf: number,
  { signal, onProgress }: Watching,
) {
  const sheet = inputs.sheets?.[source.name]?.sheet;
  const report = (bytes: number) =>
    onProgress?.({
      what: `Reading ${source.name}`,
      share: source.size ? bytes / source.size : null,
    });
  const edits = editsOf(inputs.edits, source.name, table);
  return { asOf, sheet, signal, edits, onProgress: report };
}

/** The map by which a table file is read: the one given for it, else the settled one. */
export async function mapIn(
  { sheets, maps }: Inputs,
  source: ByteSource,
  wanted: 'buildings' | 'walls',
): Promise<ColumnMap> {
  const { map, sheet } = sheets?.[source.name] ?? {};
  return map ?? (await settledMap(source, wanted, { sheet, maps }));
}

/** The files that wall records are read from, in order: the building list among them where it holds walls too. */
export const wallSources = (
  { buildings, walls = [] }: Inputs,
  { shape }: ColumnMap,
): readonly ByteSource[] =>
  shape === 'wall rows' || shape === 'wall columns' ? [buildings, ...walls] : walls;

async function readList(
  inputs: Inputs,
  { postal }: Assets,
  asOf: number,
  watching: Watching,
): Promise<TableRead> {
  const source = inputs.buildings;
  const options = tableOptions(inputs, source, 'building', asOf, watching);
  const map = await mapIn(inputs, source, 'buildings');
  return { map, read: await readBuildings(source, { ...options, map, postal }) };
}

/** The wall files, the building list among them where it holds walls too. */
async function readWallFiles(
  inputs: Inputs,
  listMap: ColumnMap,
  buildingIds: Pick<ReadonlySet<string>, 'has'>,
  asOf: number,
  watching: Watching,
): Promise<TableRead[]> {
  const found: TableRead[] = [];
  for (const source of wallSources(inputs, listMap)) {
    const options = tableOptions(inputs, source, 'wall', asOf, watching);
    const own = source === inputs.buildings;
    const map = own ? listMap : await mapIn(inputs, source, 'walls');
    found.push({ map, read: await readWalls(source, { ...options, map, buildingIds }) });
  }
  return found;
}

const tableReport = (role: 'buildings' | 'walls', { read, map }: TableRead): FileReport => ({
  file: read.file,
  role,
  records: read.records,
  rowsRead: read.rowsRead,
  accepted: read.table.n,
  joined: read.joined,
  setAside: read.setAside.length,
  noted: read.noted.length,
  unknownColumns: Object.keys(read.extra.cols),
  map,
  notes: read.notes,
});

function reportsOf(
  list: TableRead,
  walls: readonly TableRead[],
  records: WallRecords,
  side: SideFiles,
): FileReport[] {
  const same = (file: string) => records.noted.filter((note) => note.file === file).length;
  return [
    tableReport('buildings', list),
    ...walls
      .map((wall) => tableReport('walls', wall))
      .map((report) => ({ ...report, noted: report.noted + same(report.file) })),
    ...side.reports,
  ];
}

function marked(
  table: MarkedRemark['table'],
  { setAside, noted }: { readonly setAside: readonly Remark[]; readonly noted: readonly Remark[] },
): MarkedRemark[] {
  return [
    ...setAside.map((remark): MarkedRemark => ({ ...remark, table, outcome: 'row set aside' })),
    ...noted.map((remark): MarkedRemark => ({ ...remark, table, outcome: 'row kept' })),
  ].sort((a, b) => a.row - b.row);
}

const remarksOf = (
  list: TableRead,
  walls: readonly TableRead[],
  records: WallRecords,
  side: SideFiles,
): MarkedRemark[] => [
  ...marked('building', list.read),
  ...walls.flatMap(({ read }) =>
    marked('wall', {
      setAside: read.setAside,
      noted: [...read.noted, ...records.noted.filter(({ file }) => file === read.file)],
    }),
  ),
  ...side.remarked.flatMap((file) => marked(null, file)),
];

/** Row numbers in order of the ids, by code unit: the same on every machine. */
function sortedBy(ids: readonly (string | null)[]): Int32Array {
  return Int32Array.from(ids.keys()).sort((i, j) => (ids[i]! < ids[j]! ? -1 : 1));
}

const ordinalsOf = (order: Int32Array) => Float64Array.from(order, (_, b) => b);

function ordinalsById(ids: readonly (string | null)[]): ReadonlyMap<string, number> {
  const ordinals = new Map<string, number>();
  for (let b = 0; b < ids.length; b += 1) ordinals.set(ids[b]!, b);
  return ordinals;
}

/**
 * The rows of a table at these places, in this order. Columns that were one array (those of which nothing is on record)
 * are one again.
 */
export function inOrderOf(table: Columns, order: Int32Array): Columns {
  const moved = new Map<Column, Column>();
  const entries = Object.entries(table.cols).map(([name, column]) => {
    const there = moved.get(column) ?? inOrder(column, order);
    moved.set(column, there);
    return [name, there] as const;
  });
  return { n: order.length, cols: Object.fromEntries(entries) };
}

function inOrder(column: Column, order: Int32Array): Column {
  const n = order.length;
  if (column instanceof Float64Array) {
    const out = new Float64Array(n);
    for (let i = 0; i < n; i += 1) out[i] = column[order[i]!]!;
    return out;
  }
  const out = new Array<string | null>(n);
  for (let i = 0; i < n; i += 1) out[i] = column[order[i]!] ?? null;
  return out;
}

function withOrdinals(walls: Columns, ordinals: ReadonlyMap<string, number>): Columns {
  const b = Float64Array.from(texts(walls, 'building_id'), (id) => ordinals.get(id!)!);
  return { n: walls.n, cols: { b, ...walls.cols } };
}
