import type { CellEdit, RowEdits } from './read/row.ts';
import type { Edit } from './session-types.ts';

/** The edits of one table of one file, by row. */
export function editsOf(
  edits: readonly Edit[] | undefined,
  file: string,
  table: Edit['table'],
): RowEdits {
  const rows = new Map<number, CellEdit[]>();
  for (const edit of edits ?? []) {
    if (edit.file !== file || edit.table !== table) continue;
    const row = rows.get(edit.row) ?? [];
    rows.set(edit.row, row);
    row.push(edit);
  }
  return rows;
}

const sameCell = (a: Edit, b: Edit): boolean =>
  a.file === b.file &&
  a.table === b.table &&
  a.row === b.row &&
  a.wall === b.wall &&
  a.column === b.column;

/** Edits with newer ones in place of older ones of the same cell. */
export const withEdits = (edits: readonly Edit[], newer: readonly Edit[]): Edit[] => [
  ...edits.filter((edit) => !newer.some((other) => sameCell(edit, other))),
  ...newer,
];
