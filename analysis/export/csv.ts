import { byteGatherer } from './bytes.ts';
import { csvText } from './csv-text.ts';
import { type OutTable, rowBatches } from './out-table.ts';

const rowsAtOnce = 5_000;

/**
 * RFC 4180 in UTF-8. Numbers stand as they are, negative ones too; a text that a spreadsheet would take for a formula
 * is disarmed with an apostrophe before it, headings and the user's own columns as well. No record is an empty cell.
 */
export function csvBytes(table: OutTable): Uint8Array<ArrayBuffer> {
  const file = byteGatherer();
  file.text(csvText([table.heads.map(({ name }) => name)]));
  for (const rows of rowBatches(table, rowsAtOnce)) {
    file.text(csvText(rows));
  }
  return file.bytes();
}
