import type { ColumnMap, MappedColumn } from './column-map.ts';

const headingKey = (heading: string): string => heading.trim().toLowerCase();

/** Columns by heading; those of one heading in the order in which they stand. */
function byHeading(columns: readonly MappedColumn[]): Map<string, MappedColumn[]> {
  const found = new Map<string, MappedColumn[]>();
  for (const column of columns) {
    const key = headingKey(column.heading);
    found.set(key, [...(found.get(key) ?? []), column]);
  }
  return found;
}

/** Whether a file with these headings is read by this map: the same headings, in any order and case. */
export function sameHeadings({ columns }: ColumnMap, headings: readonly string[]): boolean {
  if (columns.length !== headings.length) return false;
  const sorted = (all: readonly string[]) => all.map(headingKey).toSorted();
  const own = sorted(columns.map(({ heading }) => heading));
  return sorted(headings).every((heading, i) => heading === own[i]);
}

/** The map with its columns in the order of the file. */
function inOrder(map: ColumnMap, headings: readonly string[]): ColumnMap {
  const left = byHeading(map.columns);
  return { ...map, columns: headings.map((heading) => left.get(headingKey(heading))!.shift()!) };
}

/** The first of the maps that was made for these headings, its columns in the order of the file; null where there is none. */
export function mapFor(saved: readonly ColumnMap[], headings: readonly string[]): ColumnMap | null {
  const found = saved.find((map) => sameHeadings(map, headings));
  return found ? inOrder(found, headings) : null;
}
