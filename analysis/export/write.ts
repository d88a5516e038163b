import type { Columns } from '../columns.ts';
import type { ExportFormat } from '../session-types.ts';
import type { UnitSystem } from '../units.ts';
import { softwareName } from '../version.ts';
import { byteGatherer } from './bytes.ts';
import { csvForm } from './csv.ts';
import { geojsonForm, jsonForm } from './json.ts';
import { type OutHead, type OutTable, type OutValue, outTable, rowBatches } from './out-table.ts';
import type { TextForm } from './text-form.ts';

/** Rows of text that are put together at once. */
const rowsAtOnce = 5_000;

const textForms: Readonly<Partial<Record<ExportFormat, (heads: readonly OutHead[]) => TextForm>>> =
  { csv: csvForm, json: jsonForm, geojson: geojsonForm };

/** A ranking of which never more than a batch is held. */
export interface StreamedTable {
  readonly heads: readonly OutHead[];
  /** Rows in order, in batches of `rowsOfABatch`; the last may be shorter. */
  readonly batches: Iterable<OutValue[][]> | AsyncIterable<OutValue[][]>;
}

/**
 * The ranking as the bytes of a file: the same rows, columns and values in every format, and the same bytes from the
 * same inputs on every machine. `ranking` holds the rows in the order wanted, `extra` the user's own columns (row b
 * belongs to building b), which follow at the end. `about` is the text of the sidecar; workbooks and Parquet files
 * carry it inside as well. Throws a `Refusal` where a workbook cannot hold the ranking.
 */
export async function rankingBytes(
  ranking: Columns,
  extra: Columns,
  format: ExportFormat,
  units: UnitSystem,
  about = '',
): Promise<Uint8Array<ArrayBuffer>> {
  const table = outTable(ranking, extra, units);
  if (format === 'xlsx') return (await import('./workbook.ts')).workbookBytes(table, about);
  const file = byteGatherer();
  await putRanking(streamed(table, format), format, about, file.add);
  return file.bytes();
}

const streamed = (table: OutTable, format: StreamedFormat): StreamedTable => ({
  heads: table.heads,
  batches: rowBatches(table, format === 'parquet' ? rowsOfABatch : rowsAtOnce),
});

/** Formats that need not be held whole to be written. */
export type StreamedFormat = Exclude<ExportFormat, 'xlsx'>;

/** Rows of a batch of a streamed ranking: a row group of Parquet. */
export const rowsOfABatch = 20_000;

/** The same bytes, put one after the other as they are made. */
export async function putRanking(
  { heads, batches }: StreamedTable,
  format: StreamedFormat,
  about: string,
  put: (bytes: Uint8Array<ArrayBuffer>) => Promise<void> | void,
): Promise<void> {
  const form = textForms[format]?.(heads);
  if (form) return putText(form, batches, put);
  const { putParquet } = await import('./parquet.ts');
  return putParquet(heads, batches, { software: softwareName, about }, put);
}

async function putText(
  form: TextForm,
  batches: StreamedTable['batches'],
  put: (bytes: Uint8Array<ArrayBuffer>) => Promise<void> | void,
): Promise<void> {
  const encoder = new TextEncoder();
  await put(encoder.encode(form.begin));
  let first = true;
  for await (const rows of batches) {
    await put(encoder.encode(form.rows(rows, first)));
    first = false;
  }
  await put(encoder.encode(form.end(first)));
}
