import { csvText } from '../../analysis/export/csv-text.ts';
import { findingColumns } from '../../analysis/findings/columns.ts';
import type { FindingsView } from '../../analysis/survey/findings.ts';

/** Headings of the contract, in its order. */
export const findingHeadings: readonly string[] = findingColumns
  .filter(({ derived }) => !derived)
  .map(({ name }) => name);

/** Findings on record as a file of the contract: RFC 4180, no record is an empty cell. */
export function findingsCsv(rows: FindingsView['rows']): string {
  const lines = rows.map((row) => findingHeadings.map((name) => row[name] ?? null));
  return csvText([findingHeadings, ...lines]);
}

/** An empty file with every heading, to fill in. */
export const blankFindings = `${findingHeadings.join(',')}\r\n`;
