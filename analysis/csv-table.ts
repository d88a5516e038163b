import Papa from 'papaparse';

/** A small table of data/, bundled as text: one record a row, blank cells as ''. */
export const csvTable = <T extends string>(text: string): readonly Readonly<Record<T, string>>[] =>
  Papa.parse(text.trim(), { header: true, skipEmptyLines: true }).data as Record<T, string>[];
