import type { Batch } from './batch.ts';
import { csvBatches } from './csv.ts';
import { type Format, formatOf } from './format.ts';
import type { ByteSource } from './outcome.ts';
import type { Watch } from './text-blocks.ts';
import { belowTitles } from './title-lines.ts';

export interface RecordOptions extends Watch {
  /** The sheet of a workbook that is read; its first where absent. */
  readonly sheet?: string | undefined;
}

type Reader = (source: ByteSource, options: RecordOptions) => AsyncGenerator<Batch>;

/** Readers of formats that not every user needs are loaded when they are. */
const readers: Readonly<Record<Format, () => Promise<Reader>>> = {
  text: async () => csvBatches,
  workbook: async () => (await import('./xlsx/workbook.ts')).workbookBatches,
  json: async () => (await import('./json.ts')).jsonBatches,
  parquet: async () => (await import('./parquet/read.ts')).parquetBatches,
};

/**
 * The records of a table file: delimited text, the first or the named sheet of an XLSX workbook, GeoJSON points, JSON
 * records or Parquet, told by the first bytes. The first record is the heading row; titles above it are left out with a
 * note, and rows keep the numbers that a spreadsheet shows (in GeoJSON, JSON and Parquet the headings are row 1). Leaving the
 * loop early closes the source.
 * Throws a `Refusal` when the file cannot be read as a table; the signal's reason when aborted.
 */
export async function* recordBatches(
  source: ByteSource,
  options: RecordOptions = {},
): AsyncGenerator<Batch> {
  options.signal?.throwIfAborted();
  const read = await readers[await formatOf(source)]();
  yield* belowTitles(source.name, read(source, options));
}

/** The sheets of a workbook that are not hidden; none for other formats. Throws a `Refusal` when it is damaged or locked. */
export async function sheetNames(source: ByteSource): Promise<string[]> {
  if ((await formatOf(source)) !== 'workbook') return [];
  return (await import('./xlsx/workbook.ts')).sheetNames(source);
}
