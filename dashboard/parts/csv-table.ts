import Papa from 'papaparse';

/** A small table of data/ or of this folder, bundled as text: one record a row, blank cells as ''. */
export const csvTable = <T extends string>(text: string): readonly Readonly<Record<T, string>>[] =>
  Papa.parse<Record<T, string>>(text.trim(), { header: true, skipEmptyLines: true }).data;
