import { type Columns, rowObject, texts } from '../columns.ts';
import type { Engine } from '../engine/port.ts';
import { findingColumns } from '../findings/columns.ts';
import type { KnownWalls } from '../findings/judge.ts';
import { readFindings } from '../findings/read.ts';
import { type Standings, standings } from '../findings/standing.ts';
import { emptyTable, joined } from '../read/join-tables.ts';
import type { ByteSource, ReadTable } from '../read/outcome.ts';
import type { FileReport, MarkedRemark } from '../session-types.ts';

/** Findings on record, from all files together. */
export interface FindingsRead {
  /** Columns of the contract, `row`, and `file`, an index into `files`. */
  readonly table: Columns;
  readonly reports: readonly FileReport[];
  readonly remarks: readonly MarkedRemark[];
}

/** What a view shows of the findings on record. */
export interface FindingsView {
  readonly reports: readonly FileReport[];
  readonly remarks: readonly MarkedRemark[];
  /** Rows in the order of the files; `file` is a name. */
  readonly rows: readonly Readonly<Record<string, number | string | null>>[];
  /** Walls that were seen more than once with different results, a sentence each. */
  readonly says: readonly string[];
}

export const noFindings: FindingsRead = {
  table: emptyTable(findingColumns),
  reports: [],
  remarks: [],
};

/** Walls of the portfolio by building, those that are only assumed among them. */
async function knownWalls(engine: Engine): Promise<KnownWalls> {
  const found = await engine.query(
    'SELECT s.building_id, w.wall_id FROM wall w JOIN site s USING (b) ORDER BY s.building_id, w.wall_id',
  );
  const walls = new Map<string, Set<string>>();
  const ids = texts(found, 'wall_id');
  texts(found, 'building_id').forEach((building, i) => {
    const own = walls.get(building!) ?? new Set<string>();
    walls.set(building!, own.add(ids[i]!));
  });
  return walls;
}

/** Reads findings files. Throws a `Refusal` when one of them is no table of findings. */
export async function readAllFindings(
  engine: Engine,
  sources: readonly ByteSource[],
  asOf: number,
): Promise<FindingsRead> {
  const walls = await knownWalls(engine);
  const reads: ReadTable[] = [];
  for (const source of sources) reads.push(await readFindings(source, { asOf, walls }));
  return {
    table: joined(reads, findingColumns),
    reports: reads.map(reportOf),
    remarks: reads.flatMap(remarksOf),
  };
}

const reportOf = (read: ReadTable): FileReport => ({
  file: read.file,
  role: 'findings',
  records: read.records,
  rowsRead: read.rowsRead,
  accepted: read.table.n,
  joined: read.joined,
  setAside: read.setAside.length,
  noted: read.noted.length,
  unknownColumns: Object.keys(read.extra.cols),
  map: null,
  notes: read.notes,
});

const remarksOf = (read: ReadTable): MarkedRemark[] =>
  [
    ...read.setAside.map(
      (one): MarkedRemark => ({ ...one, table: null, outcome: 'row set aside' }),
    ),
    ...read.noted.map((one): MarkedRemark => ({ ...one, table: null, outcome: 'row kept' })),
  ].sort((a, b) => a.row - b.row);

export function findingsView({ table, reports, remarks }: FindingsRead): FindingsView {
  const rows = Array.from({ length: table.n }, (_, i) => {
    const row = rowObject(table, i);
    return { ...row, file: reports[Number(row.file)]?.file ?? null };
  });
  const { says }: Standings = standings(table);
  return { reports, remarks, rows, says };
}
