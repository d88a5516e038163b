import type { ColumnMap } from '../mapping/column-map.ts';
import { planOf } from '../mapping/plan.ts';
import { settledMap } from '../mapping/settle.ts';
import type { ByteSource, ReadTable } from './outcome.ts';
import type { RowInHand } from './row.ts';
import { indexIn, wallColumns } from './schema.ts';
import { type Complaint, clip } from './sentences.ts';
import { type ReadOptions, readTable, type TableForm } from './table.ts';
import { type PartTaker, type ReadParts, readTableParts } from './table-parts.ts';

export interface WallOptions extends ReadOptions {
  /** Identifiers of the accepted buildings; a wall of any other is an orphan. Null: buildings are not known yet. */
  readonly buildingIds: Pick<ReadonlySet<string>, 'has'> | null;
  /** How its columns are read; guessed where absent. */
  readonly map?: ColumnMap | undefined;
}

const at = indexIn(wallColumns);
const buildingId = at('building_id');
const wallId = at('wall_id');
const made = at('wall_id_made');

function judgeBuilding(hand: RowInHand, buildingIds: WallOptions['buildingIds']): Complaint | null {
  const key = hand.text[buildingId];
  const cell = { column: 'building_id', value: hand.raw[buildingId]! };
  if (!key) {
    const says =
      'building_id is blank. Say which building of the building list the wall belongs to.';
    return { ...cell, code: 'blank-id', says };
  }
  if (buildingIds === null || buildingIds.has(key)) return null;
  const says = `no building ${clip(key)} in the building list. Correct building_id, or add the building; if its row was set aside there, correct that row.`;
  return { ...cell, code: 'orphan', says };
}

/** A wall without an identifier gets one that names its columns or its row, and says that it was made. */
function nameWall(hand: RowInHand): void {
  const blank = !hand.text[wallId];
  if (blank) hand.text[wallId] = `${hand.text[buildingId]}-${hand.wall ?? `row${hand.row}`}`;
  hand.text[made] = blank ? 'yes' : null;
}

/**
 * Reads the cladding records. Set aside: a blank building_id, one that is not among the accepted buildings, a year of
 * installation after `asOf`. Several records of one wall are all kept. Derived column: `wall_id_made` (yes, or null).
 * Throws a `Refusal` when the file is no table of cladding records.
 */
export async function readWalls(source: ByteSource, options: WallOptions): Promise<ReadTable> {
  const map = options.map ?? (await settledMap(source, 'walls', options));
  return readTable(source, formFor(options), planOf(map, 'wall'), options);
}

const formFor = ({ buildingIds }: WallOptions): TableForm => ({
  rules: wallColumns,
  judge: (hand) => {
    const complaint = judgeBuilding(hand, buildingIds) ?? hand.impossible;
    if (!complaint) nameWall(hand);
    return complaint;
  },
});

/** The same in parts, for files that do not fit the memory. */
export const wallParts = (
  source: ByteSource,
  options: WallOptions & { readonly map: ColumnMap },
  taker: PartTaker,
): Promise<ReadParts> =>
  readTableParts(source, formFor(options), planOf(options.map, 'wall'), options, taker);
