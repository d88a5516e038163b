import Papa from 'papaparse';
import { looksLikeFormula } from '../../analysis/export/formula.ts';
import { findingColumns } from '../../analysis/findings/columns.ts';
import type { FindingsView } from '../../analysis/survey/findings.ts';
import type { Value } from '../parts/format.ts';

/** Headings of the contract, in its order. */
export const findingHeadings: readonly string[] = findingColumns
  .filter(({ derived }) => !derived)
  .map(({ name }) => name);

/** Numbers stand as they are; a text that a spreadsheet would take for a formula is disarmed with an apostrophe. */
const cellText = (value: Value): string | number => {
  if (value === null || value === undefined) return '';
  return typeof value === 'string' && looksLikeFormula(value) ? `'${value}` : value;
};

/** Findings on record as a file of the contract: RFC 4180, no record is an empty cell. */
export function findingsCsv(rows: FindingsView['rows']): string {
  const lines = rows.map((row) => findingHeadings.map((name) => cellText(row[name])));
  return `${Papa.unparse([[...findingHeadings], ...lines], { newline: '\r\n', escapeFormulae: false })}\r\n`;
}

/** An empty file with every heading, to fill in. */
export const blankFindings = `${findingHeadings.join(',')}\r\n`;
