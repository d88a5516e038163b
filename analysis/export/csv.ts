import { csvText } from './csv-text.ts';
import type { OutHead } from './out-table.ts';
import type { TextForm } from './text-form.ts';

/**
 * RFC 4180 in UTF-8. Numbers stand as they are, negative ones too; a text that a spreadsheet would take for a formula
 * is disarmed with an apostrophe before it, headings and the user's own columns as well. No record is an empty cell.
 */
export const csvForm = (heads: readonly OutHead[]): TextForm => ({
  begin: csvText([heads.map(({ name }) => name)]),
  rows: csvText,
  end: () => '',
});
