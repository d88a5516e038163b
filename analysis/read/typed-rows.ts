import { type Batch, isBlankRecord, noRecords } from './batch.ts';
import { usesDecimalComma } from './decimal-comma.ts';
import type { Remark } from './outcome.ts';

/** A cell whose file says whether it is a number or text. */
export type Cell = string | number;

export interface TypedRow {
  /** Row as a spreadsheet counts it. */
  readonly row: number;
  readonly cells: readonly Cell[];
  readonly remarks?: readonly Remark[];
}

/** A number as short as it can be written without loss; not a number is no record. */
const written = (cell: Cell): string =>
  typeof cell === 'string' ? cell : Number.isNaN(cell) ? '' : String(cell);

function batchOf(piece: readonly TypedRow[], decimalComma: boolean, notes: string[]): Batch {
  const rows = piece.map((row) => ({ ...row, record: row.cells.map(written) }));
  const kept = rows.filter(({ record }) => !isBlankRecord(record));
  return {
    records: kept.map(({ record }) => record),
    rows: kept.map(({ row }) => row),
    torn: noRecords.torn,
    decimalComma,
    notes: kept.length > 0 ? notes.splice(0) : [],
    remarks: kept.flatMap(({ remarks = [] }) => remarks),
  };
}

const textsOf = ({ cells }: TypedRow): string[] => cells.filter((cell) => typeof cell === 'string');

/**
 * Rows of a file whose numbers are numbers: only the texts among its cells can have decimal commas. `notes` may grow while
 * the pieces come.
 */
export async function* typedBatches(
  pieces: AsyncIterable<readonly TypedRow[]> | Iterable<readonly TypedRow[]>,
  notes: string[],
): AsyncGenerator<Batch> {
  let decimalComma: boolean | undefined;
  for await (const piece of pieces) {
    decimalComma ??= usesDecimalComma(piece.map(textsOf), false);
    const batch = batchOf(piece, decimalComma, notes);
    if (batch.records.length > 0) yield batch;
  }
  if (decimalComma !== undefined && notes.length > 0) yield { ...noRecords, decimalComma, notes };
}

/** Rows in pieces of a thousand. */
export function* inPieces<T>(rows: readonly T[]): Generator<readonly T[]> {
  for (let from = 0; from < rows.length; from += 1000) yield rows.slice(from, from + 1000);
}
