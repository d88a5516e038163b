import Papa from 'papaparse';
import { byteGatherer } from './bytes.ts';
import { looksLikeFormula } from './formula.ts';
import { type OutTable, type OutValue, rowBatches } from './out-table.ts';

const rowsAtOnce = 5_000;

/**
 * RFC 4180 in UTF-8. Numbers stand as they are, negative ones too; a text that a spreadsheet would take for a formula
 * is disarmed with an apostrophe before it, headings and the user's own columns as well. No record is an empty cell.
 */
export function csvBytes(table: OutTable): Uint8Array<ArrayBuffer> {
  const file = byteGatherer();
  file.text(lines([table.heads.map(({ name }) => disarmed(name))]));
  for (const rows of rowBatches(table, rowsAtOnce)) {
    file.text(lines(rows.map((row) => row.map(disarmed))));
  }
  return file.bytes();
}

const disarmed = (value: OutValue): OutValue =>
  typeof value === 'string' && looksLikeFormula(value) ? `'${value}` : value;

const lines = (rows: readonly (readonly OutValue[])[]): string =>
  `${Papa.unparse(rows, { newline: '\r\n', escapeFormulae: false })}\r\n`;
