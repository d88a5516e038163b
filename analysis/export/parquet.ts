import type { ColumnSource, SchemaElement } from 'hyparquet-writer';
import type { OutHead, OutValue } from './out-table.ts';

/** Rows of a row group: as many as are held as values at once, by the writer and later by whoever reads. */
const rowsOfAGroup = 20_000;

/** What a file says of itself: the software, and the text of the sidecar (none where it is empty). */
interface Said {
  readonly software: string;
  readonly about: string;
}

/**
 * Parquet: DOUBLE and UTF8 columns, NULL for no record, Snappy, nothing that tells the time. `about` is kept in the file's
 * own metadata under that name, so that a file that is passed on alone still explains itself. Each of the `groups` becomes
 * a row group; `put` is given the bytes in order, as soon as a group is whole.
 */
export async function putParquet(
  heads: readonly OutHead[],
  groups: Iterable<OutValue[][]> | AsyncIterable<OutValue[][]>,
  { software, about }: Said,
  put: (bytes: Uint8Array<ArrayBuffer>) => Promise<void> | void,
): Promise<void> {
  const { ByteWriter, ParquetWriter } = await import('hyparquet-writer');
  const writer = new ByteWriter();
  const file = new ParquetWriter({
    writer,
    schema: schema(heads),
    createdBy: software,
    kvMetadata: about === '' ? [] : [{ key: 'about', value: about }],
  });
  const handOn = async () => {
    await put(new Uint8Array(writer.getBuffer()));
    writer.index = 0;
  };
  for await (const rows of groups) {
    await file.write({ columnData: columns(heads, rows), rowGroupSize: rowsOfAGroup });
    await handOn();
  }
  await file.finish();
  await handOn();
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
