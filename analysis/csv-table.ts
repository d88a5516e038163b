import { csvParseRows } from 'd3';

/**
 * A small table of data/, bundled as text: one record a row, blank cells as ''. Our own tables need none of the tolerance
 * that files of users do, nor the larger parser that has it.
 */
export function csvTable<T extends string>(text: string): readonly Readonly<Record<T, string>>[] {
  const [heads, ...rows] = csvParseRows(text.trim()).filter((row) => row.length > 1);
  return rows.map((row) =>
    Object.fromEntries(heads!.map((head, i) => [head, row[i] ?? ''])),
  ) as Record<T, string>[];
}
