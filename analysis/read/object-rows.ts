import { Refusal } from './outcome.ts';
import type { Cell, TypedRow } from './typed-rows.ts';

/** Records with the columns that any of them has. Row 1 is the headings'. */
export interface Table {
  readonly headings: readonly string[];
  readonly rows: readonly TypedRow[];
  /** Sentences on the file as a whole. */
  readonly notes: readonly string[];
}

export const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** More columns than a spreadsheet can hold are no table. */
const mostColumns = 16_384;

/** Whole numbers beyond what the language holds exactly go as texts. */
const plainBig = (_: string, value: unknown): unknown => {
  if (typeof value !== 'bigint') return value;
  return Number.isSafeInteger(Number(value)) ? Number(value) : String(value);
};

/** A value as a cell: what holds other values is written as JSON. */
export function cellOf(value: unknown): Cell {
  if (value === null || value === undefined) return '';
  if (typeof value === 'string' || typeof value === 'number') return value;
  return typeof value === 'object' ? JSON.stringify(value, plainBig) : String(value);
}

/** Names in the order in which they appear. */
export function namesOf(file: string, objects: readonly Record<string, unknown>[]): string[] {
  const names = new Set<string>();
  for (const object of objects) {
    for (const name in object) names.add(name);
    if (names.size > mostColumns)
      throw new Refusal(
        file,
        `${file} has more than 16,384 columns, more than a spreadsheet can hold. Choose another file.`,
      );
  }
  return [...names];
}

/** Cells of an object under these names. */
export const cellsOf = (object: Record<string, unknown>, names: readonly string[]): Cell[] =>
  names.map((name) => (Object.hasOwn(object, name) ? cellOf(object[name]) : ''));

/** Records with named values as a table. */
export function objectRows(file: string, objects: readonly Record<string, unknown>[]): Table {
  const headings = namesOf(file, objects);
  const rows = objects.map((object, i) => ({ row: i + 2, cells: cellsOf(object, headings) }));
  return { headings, rows, notes: [] };
}
