import type { Random } from '../../analysis/sample/random.ts';
import { chance, draw } from './random.ts';
import { blanks, spellings } from './tables.ts';

/** Cells of a row in the order of its headings. */
export type Cells = string[];

/** How one clerk writes cells: with the blanks of a development's records and the spellings people use. */
export interface Clerk {
  /** The value, or '' as often as records of that quality leave the column blank. */
  kept(column: string, value: string | number): string;
  /** The same in one of its spellings. */
  spelt(column: string, value: string, list?: string): string;
}

/** A clerk for a table (`buildings`, `walls`); `gaps` multiplies the usual share of blanks. */
export function clerk(random: Random, table: string, gaps: number): Clerk {
  const usual = blanks.get(table)!;
  const kept = (column: string, value: string | number): string =>
    value === '' || chance(random, Math.min(96, (usual.get(column) ?? 0) * gaps))
      ? ''
      : String(value);
  return {
    kept,
    spelt(column, value, list = column) {
      const text = kept(column, value);
      const ways = text === '' ? undefined : spellings.get(list)?.get(value);
      return ways ? draw(random, ways) : text;
    },
  };
}

const quoted = (cell: string): string =>
  /[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;

/** One line of CSV. */
export const line = (cells: Cells): string => `${cells.map(quoted).join(',')}\n`;
