import type { Remark } from '../../analysis/read/outcome.ts';

/** A cell that a spreadsheet would run as a formula is prefixed with an apostrophe. */
const harmless = (text: string): string => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text);

const quoted = (text: string): string =>
  /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;

/** RFC 4180 text of rows of cells. */
export const csvText = (rows: readonly (readonly string[])[]): string =>
  rows.map((cells) => `${cells.map((cell) => quoted(harmless(cell))).join(',')}\r\n`).join('');

const heading = ['file', 'row', 'column', 'value', 'outcome', 'reason'];

export interface Marked extends Remark {
  readonly outcome: 'set aside' | 'taken as no record';
}

/** Set-aside rows and noted cells as a file to mend from. */
export const remarksCsv = (remarks: readonly Marked[]): string =>
  csvText([
    heading,
    ...remarks.map((r) => [r.file, String(r.row), r.column, r.value, r.outcome, r.message]),
  ]);
