import text from '../../data/stations/search.csv?raw';
import { csvTable } from '../csv-table.ts';

const rows = csvTable(text);

/** Every value of that name in data/stations/search.csv, in its order. Throws when there is none: a mistake in our files. */
export function searchValues(name: string): readonly number[] {
  const values = rows.filter((row) => row.name === name).map((row) => Number(row.value));
  if (values.length === 0 || values.some(Number.isNaN)) throw new Error(`no ${name} in search.csv`);
  return values;
}

/** The one value of that name. */
export const searchValue = (name: string): number => searchValues(name)[0]!;
