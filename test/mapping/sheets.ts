import { csvParseRows } from 'd3';
import type { ColumnMap, SheetSample } from '../../analysis/mapping/column-map.ts';

/** A sheet from lines of text whose cells are parted by ` | `: the first line holds the headings. */
export function sheet(...lines: readonly string[]): SheetSample {
  const [headings = [], ...rows] = lines.map((line) => line.split('|').map((cell) => cell.trim()));
  return { file: 'list.csv', headings, rows, decimalComma: false };
}

/** The first rows of a CSV, as the page samples them. */
export function csvSheet(file: string, text: string, most = 500): SheetSample {
  const [headings = [], ...rows] = csvParseRows(text);
  return { file, headings, rows: rows.slice(0, most), decimalComma: false };
}

/** What fills what, in one line each: `Height (ft): height_m in ft`, `N elev.: material of north`. */
export const told = ({ columns }: ColumnMap): string[] =>
  columns.flatMap(({ heading, fills, unit, wall }) =>
    fills
      ? [
          `${heading}: ${fills.column}${wall === null ? '' : ` of ${wall}`}${unit === null ? '' : ` in ${unit}`}`,
        ]
      : [],
  );
