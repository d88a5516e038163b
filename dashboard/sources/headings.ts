import { csvTable } from '../../analysis/csv-table.ts';
import type { Role } from '../../analysis/session-types.ts';
import text from './headings.csv?raw';

/** The headings of the input tables with their meaning, in contract order. */
export const headings = csvTable<'file' | 'column' | 'unit' | 'needed' | 'meaning'>(text);

export const headingsOf = (role: Role) => headings.filter((heading) => heading.file === role);

export const contractColumns = (role: Role): readonly string[] =>
  headingsOf(role).map((heading) => heading.column);

/** An empty file with every heading, to fill in. */
export const blankFile = (role: Role): string => `${contractColumns(role).join(',')}\r\n`;
