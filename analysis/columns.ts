/**
 * Plain columns: the only shape in which tables cross a thread or the engine's port.
 * A missing number is NaN and never 0; a missing text is null and never ''.
 */
export type NumberColumn = Float64Array;
export type TextColumn = (string | null)[];
export type Column = NumberColumn | TextColumn;

export interface Columns {
  /** Number of rows; every column has this length. */
  readonly n: number;
  readonly cols: Readonly<Record<string, Column>>;
}

/** The named column as numbers. Throws when the column is absent or holds text: a mistake in our code. */
export function numbers(table: Columns, name: string): NumberColumn {
  const column = table.cols[name];
  if (!(column instanceof Float64Array)) throw new Error(`no number column ${name}`);
  return column;
}

/** The named column as texts. Throws when the column is absent or holds numbers: a mistake in our code. */
export function texts(table: Columns, name: string): TextColumn {
  const column = table.cols[name];
  if (!Array.isArray(column)) throw new Error(`no text column ${name}`);
  return column;
}

/** One cell as a plain value: NaN becomes null. */
export function cell(table: Columns, name: string, row: number): number | string | null {
  const value = table.cols[name]?.[row] ?? null;
  return typeof value === 'number' && Number.isNaN(value) ? null : value;
}

/** One row as a plain object, in column order. */
export function rowObject(table: Columns, row: number): Record<string, number | string | null> {
  const object: Record<string, number | string | null> = {};
  for (const name of Object.keys(table.cols)) object[name] = cell(table, name, row);
  return object;
}
