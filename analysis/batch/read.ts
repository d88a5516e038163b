import { type Columns, numbers, texts } from '../columns.ts';
import type { KeepingEngine } from '../engine/port.ts';
import { type Assets, mapIn, refuseSameNames, tableOptions, wallSources } from '../inputs.ts';
import type { ColumnMap } from '../mapping/column-map.ts';
import { buildingParts, noneAccepted } from '../read/buildings.ts';
import type { ByteSource } from '../read/outcome.ts';
import { buildingColumns, wallColumns } from '../read/schema.ts';
import type { ReadParts, TablePart } from '../read/table-parts.ts';
import { wallParts } from '../read/walls.ts';
import type { FileReport, Inputs, Watching } from '../session-types.ts';
import { readSideFiles, type SideFiles } from '../side-files.ts';
import { type Ids, newIds } from './ids.ts';
import { type KeptTable, keepWords, keptColumns, type RemarkKeeper, remarkKeeper } from './kept.ts';
import { commonestReason } from './remarks.ts';
import { newWords, type Words } from './words.ts';

/** How much is done at once. */
export interface BatchSizes {
  /** Rows of a file that are held while it is read. */
  readonly part: number;
  /** Buildings that are scored at once. */
  readonly shard: number;
}

/** The user's own column of the building list, and the column of `kept.building` that holds it. */
interface KeptExtra {
  readonly name: string;
  readonly column: string;
}

/** What is known of a portfolio once its tables are kept; plain values, so that a run can go on from it. */
export interface KeptPortfolio {
  /** Accepted buildings; their ordinals `b` are 0 … n − 1 in the order of the file. */
  readonly n: number;
  readonly list: KeptTable;
  readonly walls: readonly KeptTable[];
  readonly wallFiles: readonly string[];
  readonly extras: readonly KeptExtra[];
  readonly files: readonly FileReport[];
}

/** What the reading of one portfolio shares. */
interface Desk {
  readonly engine: KeepingEngine;
  readonly inputs: Inputs;
  readonly assets: Assets;
  readonly asOf: number;
  readonly watching: Watching;
  readonly sizes: BatchSizes;
  readonly ids: Ids;
  readonly words: Words;
  readonly remarks: RemarkKeeper;
}

const own = (i: number): string => `x${i}`;

/**
 * Reads every file of the inputs into the schema `kept`, a part at a time: the same rows accepted, and the same remarks, as
 * `readInputs`. Throws a Refusal where one of the files cannot be used.
 */
export async function readKept(
  engine: KeepingEngine,
  inputs: Inputs,
  assets: Assets,
  asOf: number,
  watching: Watching,
  sizes: BatchSizes,
): Promise<KeptPortfolio> {
  refuseSameNames(inputs);
  const [ids, words, remarks] = [newIds(), newWords(), remarkKeeper(engine)];
  const desk = { engine, inputs, assets, asOf, watching, sizes, ids, words, remarks };
  const map = await mapIn(inputs, inputs.buildings, 'buildings');
  const list = await keepBuildings(desk, map);
  const walls: KeptFile[] = [];
  for (const [i, source] of wallSources(inputs, map).entries()) {
    const own = source === inputs.buildings ? map : await mapIn(inputs, source, 'walls');
    walls.push(await keepWalls(desk, source, own, i));
  }
  await keepWords(engine, words);
  const side = await sideFilesOf(engine, inputs, assets, watching);
  for (const [i, { setAside, noted }] of side.remarked.entries()) {
    await remarks.keep(setAside, noted, null, 1 + walls.length + i);
  }
  return {
    n: ids.size(),
    list: list.table,
    walls: walls.map(({ table }) => table),
    wallFiles: walls.map(({ read }) => read.file),
    extras: list.extras.filter(({ name }) => list.read.extras.includes(name)),
    files: [
      fileReport('buildings', list),
      ...walls.map((wall) => fileReport('walls', wall)),
      ...side.reports,
    ],
  };
}

interface KeptFile {
  readonly read: ReadParts;
  readonly table: KeptTable;
  readonly map: ColumnMap;
}

async function keepBuildings(
  desk: Desk,
  map: ColumnMap,
): Promise<KeptFile & { readonly extras: readonly KeptExtra[] }> {
  const { engine, inputs, asOf, watching, sizes, ids, assets } = desk;
  const source = inputs.buildings;
  const options = { ...tableOptions(inputs, source, 'building', asOf, watching), map };
  let kept = 0;
  let stored: readonly string[] = [];
  let extras: readonly KeptExtra[] = [];
  const take = async (part: TablePart) => {
    const { n } = part.table;
    const first = kept;
    const b = Float64Array.from({ length: n }, (_, i) => first + i);
    kept += n;
    stored = Object.keys(part.table.cols);
    const theirs = Object.entries(part.extra.cols);
    extras = theirs.map(([name], i) => ({ name, column: own(i) }));
    const { cols } = keptColumns(part.table, buildingColumns, desk.words);
    const more = theirs.map(([, column], i) => [own(i), column] as const);
    await engine.append('building', { n, cols: { b, ...cols, ...Object.fromEntries(more) } });
    await desk.remarks.keep(part.setAside, part.noted, 'building', 0);
  };
  const taker = { rows: sizes.part, take };
  const read = await buildingParts(source, { ...options, postal: assets.postal }, ids, taker);
  if (kept === 0) {
    const { times, example } = await commonestReason(engine, 0);
    throw noneAccepted(read.file, read.rowsRead, times, example);
  }
  return { read, map, table: { name: 'building', stored }, extras };
}

/** Rows that may stand outside the order of the buildings before the table is put in order, as a share. */
const mostOutOfOrder = 0.01;

async function keepWalls(
  desk: Desk,
  source: ByteSource,
  map: ColumnMap,
  index: number,
): Promise<KeptFile> {
  const { engine, inputs, asOf, watching, sizes, ids } = desk;
  const options = { ...tableOptions(inputs, source, 'wall', asOf, watching), map };
  const name = `wall_${index}`;
  const order = { last: 0, behind: 0 };
  let stored: readonly string[] = [];
  const take = async (part: TablePart) => {
    const { building_id: _, ...rest } = part.table.cols;
    const b = Float64Array.from(texts(part.table, 'building_id'), (id) => ids.ordinal(id!));
    countBehind(order, b, sizes.shard);
    stored = Object.keys(rest);
    const { cols } = keptColumns({ n: part.table.n, cols: rest }, wallColumns, desk.words);
    await engine.append(name, { n: part.table.n, cols: { b, ...cols } });
    await desk.remarks.keep(part.setAside, part.noted, 'wall', 1 + index);
  };
  const walls = { ...options, buildingIds: ids };
  const read = await wallParts(source, walls, { rows: sizes.part, take });
  if (order.behind > mostOutOfOrder * read.accepted) await putInOrder(engine, name, sizes.shard);
  return { read, map, table: { name, stored } };
}

function countBehind(order: { last: number; behind: number }, b: Float64Array, shard: number) {
  for (const building of b) {
    const own = Math.floor(building / shard);
    if (own < order.last) order.behind += 1;
    else order.last = own;
  }
}

/** A shard is read from rows that lie together: otherwise each would look through the whole table. */
async function putInOrder(engine: KeepingEngine, name: string, shard: number): Promise<void> {
  const sorted = `SELECT * FROM kept.${name} ORDER BY floor(b / ${shard})`;
  await engine.query(`CREATE TABLE kept.${name}_in_order AS ${sorted}`);
  await engine.query(`DROP TABLE kept.${name}`);
  await engine.query(`ALTER TABLE kept.${name}_in_order RENAME TO ${name}`);
}

const fileReport = (role: 'buildings' | 'walls', { read, map }: KeptFile): FileReport => ({
  file: read.file,
  role,
  records: read.records,
  rowsRead: read.rowsRead,
  accepted: read.accepted,
  joined: read.joined,
  setAside: read.setAside,
  noted: read.noted,
  unknownColumns: read.extras,
  map,
  notes: read.notes,
});

const boxText = `SELECT min(longitude) AS west, max(longitude) AS east, min(latitude) AS south, max(latitude) AS north
  FROM kept.building`;

/** The files beside the tables; of grids the part around the kept buildings. */
export async function sideFilesOf(
  engine: KeepingEngine,
  inputs: Inputs,
  assets: Assets,
  watching: Watching,
): Promise<SideFiles> {
  const box = await engine.query(boxText);
  const pair = (least: string, most: string) =>
    Float64Array.of(numbers(box, least)[0]!, numbers(box, most)[0]!);
  const corners: Columns = {
    n: 2,
    cols: { longitude: pair('west', 'east'), latitude: pair('south', 'north') },
  };
  // What the grids say is asked building by building, later.
  return readSideFiles(inputs, assets, corners, watching);
}
