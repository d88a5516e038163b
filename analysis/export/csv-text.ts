import Papa from 'papaparse';
import { looksLikeFormula } from './formula.ts';

type Cell = string | number | boolean | null;

const disarmed = (value: Cell): Cell =>
  typeof value === 'string' && looksLikeFormula(value) ? `'${value}` : value;

/**
 * Rows as RFC 4180 text. Numbers stand as they are, negative ones too; a text that a spreadsheet would take for a formula
 * is disarmed with an apostrophe before it. No record is an empty cell.
 */
export const csvText = (rows: readonly (readonly Cell[])[]): string =>
  `${Papa.unparse(
    rows.map((row) => row.map(disarmed)),
    { newline: '\r\n', escapeFormulae: false },
  )}\r\n`;
