import Papa from 'papaparse';
import type { ReadReport } from '../session-types.ts';

const heads = ['file', 'row', 'column', 'value', 'outcome', 'reason'];

/** Every remark about the inputs as CSV: rows set aside, then cells noted and taken as no record. */
export function setAsideText({ files }: ReadReport): string {
  const rows = files.flatMap(({ setAside, noted }) => [
    ...setAside.map((remark) => ({ ...remark, outcome: 'row set aside' })),
    ...noted.map((remark) => ({ ...remark, outcome: 'cell taken as no record' })),
  ]);
  const cells = rows.map(({ file, row, column, value, outcome, message }) => [
    file,
    row,
    column,
    value,
    outcome,
    message,
  ]);
  return `${Papa.unparse([heads, ...cells], { newline: '\r\n', escapeFormulae: true })}\r\n`;
}
