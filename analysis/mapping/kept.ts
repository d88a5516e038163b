import { Refusal } from '../read/outcome.ts';
import type { ColumnMap, MappedColumn } from './column-map.ts';
import { doubtIn, mapIn } from './map-check.ts';

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

/** Column maps as a file that `readMaps` takes: JSON, a list. */
export const mapsText = (maps: readonly ColumnMap[]): string =>
  `${JSON.stringify(maps, null, 2)}\n`;

function parsed(text: string, file: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : String(cause);
    throw new Refusal(file, `${file} is not a file of column maps: ${why}. It must be JSON.`);
  }
}

/**
 * Reads column maps from JSON: one, or a list. What a map leaves out is taken as absent (`unit`, `wall`, `fills`, `groups`,
 * `words`). Throws a `Refusal` that says which part cannot be used and what may stand there.
 */
export function readMaps(text: string, file: string): readonly ColumnMap[] {
  const maps = [parsed(text, file)].flat();
  if (maps.length === 0) {
    throw new Refusal(
      file,
      `${file} holds no column map. Write one with --write-map, change it and give it back.`,
    );
  }
  return maps.map((map, i) => {
    const doubt = doubtIn(map);
    if (doubt === null) return mapIn(map);
    const which = maps.length > 1 ? `, map ${i + 1}` : '';
    throw new Refusal(file, `${file}${which}: ${doubt}`);
  });
}
