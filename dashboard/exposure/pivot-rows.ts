import type { Pivot } from '../../analysis/exposure/pivot.ts';
import type { Dimension } from '../../analysis/exposure/types.ts';

/** One row of the pivot as it is set. */
export interface PivotRow {
  readonly row: number;
  /** Its headings; one that stands for the rows below as well is set once and spans them. */
  readonly heads: readonly {
    readonly dimension: Dimension;
    readonly code: number;
    readonly span: number;
  }[];
  /** Cell by column, where a line lies. */
  readonly cells: ReadonlyMap<number, number>;
}

/** The first rows of a pivot. */
export function pivotRows({ rows, cells }: Pivot, most: number): readonly PivotRow[] {
  const n = Math.min(rows.n, most);
  const byRow = Array.from({ length: n }, () => new Map<number, number>());
  cells.row.forEach((row, cell) => {
    byRow[row]?.set(cells.column[cell]!, cell);
  });
  const level = (d: number, row: number) => rows.levels[d]![row]!;
  const same = (d: number, row: number, other: number) =>
    rows.levels.slice(0, d + 1).every((levels) => levels[row] === levels[other]);
  const span = (d: number, row: number) => {
    let end = row + 1;
    while (end < n && same(d, row, end)) end++;
    return end - row;
  };
  return byRow.map((at, row) => ({
    row,
    heads: rows.dimensions.flatMap((dimension, d) =>
      row > 0 && same(d, row, row - 1)
        ? []
        : [{ dimension, code: level(d, row), span: span(d, row) }],
    ),
    cells: at,
  }));
}
