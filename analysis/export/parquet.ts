import type { ColumnSource, SchemaElement } from 'hyparquet-writer';
import { type OutHead, type OutTable, type OutValue, rowBatches } from './out-table.ts';

/** Rows of a row group: as many as are held as values at once, by the writer and later by whoever reads. */
const rowsOfAGroup = 20_000;

/**
 * Parquet: DOUBLE and UTF8 columns, NULL for no record, Snappy, nothing that tells the time. `about` is the text of the
 * sidecar, kept in the file's own metadata under that name, so that a file that is passed on alone still explains itself.
 */
export async function parquetBytes(
  table: OutTable,
  software: string,
  about: string,
): Promise<Uint8Array<ArrayBuffer>> {
  const { ByteWriter, ParquetWriter } = await import('hyparquet-writer');
  const writer = new ByteWriter();
  const file = new ParquetWriter({
    writer,
    schema: schema(table.heads),
    createdBy: software,
    kvMetadata: about === '' ? [] : [{ key: 'about', value: about }],
  });
  for (const rows of rowBatches(table, rowsOfAGroup)) {
    await file.write({ columnData: columns(table.heads, rows), rowGroupSize: rowsOfAGroup });
  }
  await file.finish();
  return new Uint8Array(writer.getBuffer());
}

const schema = (heads: readonly OutHead[]): SchemaElement[] => [
  { name: 'ranking', num_children: heads.length },
  ...heads.map(({ name, kind }) => ({
    name,
    repetition_type: 'OPTIONAL' as const,
    ...types[kind],
  })),
];

const types = {
  number: { type: 'DOUBLE' },
  text: { type: 'BYTE_ARRAY', converted_type: 'UTF8' },
} as const;

const columns = (heads: readonly OutHead[], rows: readonly OutValue[][]): ColumnSource[] =>
  heads.map(({ name }, i) => ({ name, data: rows.map((row) => row[i]) }));
