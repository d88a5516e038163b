import { type Columns, numbers, type TextColumn, texts } from '../columns.ts';
import { joined } from './join-tables.ts';
import type { ReadTable, Remark } from './outcome.ts';
import { wallColumns } from './schema.ts';
import { remark } from './sentences.ts';

/** The cladding records of all files as one table: the columns of the contract, `row`, and `file`, an index into `files`. */
export interface WallRecords {
  readonly table: Columns;
  readonly files: readonly string[];
  /** Records that were given the wall of an earlier file, one remark each. */
  readonly noted: readonly Remark[];
}

/** Puts the tables one below the other, in the order of the files. */
export function joinWallFiles(reads: readonly ReadTable[]): WallRecords {
  const files = reads.map(({ file }) => file);
  const table = joined(reads, wallColumns);
  return { table, files, noted: reads.length > 1 ? sameWalls(table, files) : [] };
}

/**
 * A record that names no wall, in a file after the first, speaks of the wall that an earlier file has on that side of
 * that building, if there is just one: else two files about one wall would count it twice. Changes `wall_id` and
 * `wall_id_made` of the table, whose rows stand in the order of `file` and `row`.
 */
export function sameWalls(table: Columns, files: readonly string[]): Remark[] {
  const building = texts(table, 'building_id');
  const azimuth = numbers(table, 'azimuth_deg');
  const file = numbers(table, 'file');
  const row = numbers(table, 'row');
  const wallId = table.cols.wall_id as TextColumn;
  const made = table.cols.wall_id_made as TextColumn;
  const known = new Map<string, string | null>();
  const noted: Remark[] = [];
  for (let i = 0; i < table.n; i += 1) {
    const side = `${building[i]}\n${azimuth[i]}`;
    const own = known.get(side);
    if (file[i]! > 0 && made[i] === 'yes' && own && !Number.isNaN(azimuth[i]!)) {
      wallId[i] = own;
      made[i] = null;
      const says = `it names no wall, so it is taken for wall ${own}, the one on that side of ${building[i]}. The better source stands, then the newer record. Give it a wall_id if it is another.`;
      noted.push(
        remark(files[file[i]!]!, row[i]!, {
          column: 'wall_id',
          value: '',
          code: 'same-wall',
          says,
        }),
      );
    } else if (!known.has(side)) known.set(side, wallId[i]!);
    else if (own !== wallId[i]) known.set(side, null);
  }
  return noted;
}
