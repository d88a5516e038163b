import type { Columns } from '../columns.ts';
import type { ExportFormat } from '../session-types.ts';
import type { UnitSystem } from '../units.ts';
import { softwareName } from './about.ts';
import { csvBytes } from './csv.ts';
import { geojsonBytes, jsonBytes } from './json.ts';
import { type OutTable, outTable } from './out-table.ts';

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
  return writers[format](outTable(ranking, extra, units), about);
}

type Writer = (
  table: OutTable,
  about: string,
) => Uint8Array<ArrayBuffer> | Promise<Uint8Array<ArrayBuffer>>;

/** What the page need not load before it is asked for is loaded then. */
const writers: Readonly<Record<ExportFormat, Writer>> = {
  csv: csvBytes,
  json: jsonBytes,
  geojson: geojsonBytes,
  xlsx: async (table, about) => (await import('./workbook.ts')).workbookBytes(table, about),
  parquet: async (table, about) =>
    (await import('./parquet.ts')).parquetBytes(table, softwareName, about),
};
