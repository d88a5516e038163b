import type { AsyncBuffer, FileMetaData, RowGroup, SchemaElement, SchemaTree } from 'hyparquet';
import type { Batch } from '../batch.ts';
import { cellOf } from '../object-rows.ts';
import { type ByteSource, Refusal } from '../outcome.ts';
import type { RecordOptions } from '../records.ts';
import { type Cell, inPieces, type TypedRow, typedBatches } from '../typed-rows.ts';
import { cellWriter, isDecimal, parsers } from './cells.ts';
import { loadLibrary } from './library.ts';
import { checkGroup, mostGroupBytes, mostGroupRows, rangeOf } from './pages.ts';

/** Rows beyond which no portfolio goes. */
const mostRows = 20e6;

const damaged = (file: string): Refusal =>
  new Refusal(
    file,
    `${file} cannot be read as Parquet: it is damaged, or holds a kind of column that is not supported. Write it again, or save it as CSV.`,
  );

async function checkEnds(source: ByteSource): Promise<void> {
  const { name, size } = source;
  const ends = [await source.slice(0, 4), await source.slice(Math.max(0, size - 4), size)];
  const [first, last] = ends.map((bytes) => String.fromCharCode(...bytes));
  if (first === 'PARE' || last === 'PARE')
    throw new Refusal(
      name,
      `${name} is encrypted. Write it without encryption, or save it as CSV.`,
    );
  if (last !== 'PAR1' || size < 12)
    throw new Refusal(
      name,
      `${name} is a Parquet file without its end: it was cut short. Copy it again.`,
    );
}

/** Bytes of a file as the library asks for them. What the source itself throws is kept apart from what the bytes cause. */
function buffered(source: ByteSource) {
  const failure: { cause?: unknown } = {};
  let held: { from: number; bytes: Uint8Array } = { from: 0, bytes: new Uint8Array(0) };
  const read = async (from: number, to: number): Promise<Uint8Array> => {
    if (from < 0 || to > source.size || from > to) throw new RangeError('beyond the file');
    try {
      return await source.slice(from, to);
    } catch (cause) {
      failure.cause = cause;
      throw cause;
    }
  };
  const slice = async (from: number, to: number = source.size): Promise<ArrayBuffer> => {
    const at = from - held.from;
    const inside = at >= 0 && to - held.from <= held.bytes.length;
    const bytes = inside ? held.bytes.slice(at, to - held.from) : await read(from, to);
    return new Uint8Array(bytes).buffer;
  };
  const hold = async (from: number, to: number): Promise<void> => {
    held = { from, bytes: await read(from, to) };
  };
  return { slice, hold, failure, file: { byteLength: source.size, slice } satisfies AsyncBuffer };
}

type Buffered = ReturnType<typeof buffered>;

/** Runs what reads untrusted bytes: whatever it throws is a refusal, unless the source failed. */
async function guarded<T>(source: ByteSource, { failure }: Buffered, work: () => Promise<T>) {
  try {
    return await work();
  } catch (error) {
    if ('cause' in failure) throw failure.cause;
    throw error instanceof Refusal ? error : damaged(source.name);
  }
}

interface Opened {
  readonly metadata: FileMetaData;
  readonly schema: SchemaTree;
  readonly columns: readonly SchemaTree[];
  readonly writers: readonly ((value: unknown) => Cell)[];
}

/** Decimal fractions come as their digits: the library would make them binary ones. */
const withDigits = (schema: readonly SchemaElement[], columns: readonly SchemaTree[]) =>
  schema.map((element): SchemaElement => {
    const own = columns.some(
      (column) => column.element === element && column.children.length === 0,
    );
    if (!own || !isDecimal(element)) return element;
    const { converted_type: _, logical_type: __, ...bare } = element;
    return bare;
  });

async function open(source: ByteSource, buffer: Buffered): Promise<Opened> {
  const { parquetMetadataAsync, parquetSchema } = await import('hyparquet');
  const metadata = await parquetMetadataAsync(buffer.file, { parsers, geoparquet: false });
  const schema = parquetSchema(metadata);
  const columns = schema.children;
  const rows = metadata.row_groups.reduce((sum, { num_rows }) => sum + Number(num_rows), 0);
  if (columns.length === 0 || rows !== Number(metadata.num_rows)) throw damaged(source.name);
  if (rows > mostRows)
    throw new Refusal(
      source.name,
      `${source.name} has more than ${mostRows / 1e6} million rows. Cut it to the buildings that are needed.`,
    );
  const writers = columns.map(({ element, children }) =>
    children.length > 0 ? cellOf : cellWriter(element),
  );
  return {
    metadata: { ...metadata, schema: withDigits(metadata.schema, columns) },
    schema,
    columns,
    writers,
  };
}

/** Holds the bytes of a group and checks them. */
async function hold(
  file: string,
  group: RowGroup,
  buffer: Buffered,
  schema: SchemaTree,
): Promise<void> {
  const ranges = group.columns.map(({ meta_data }) => (meta_data ? rangeOf(meta_data) : [0, 0]));
  const from = Math.min(...ranges.map(([start]) => start!));
  const to = Math.max(...ranges.map(([, end]) => end!));
  if (Number(group.num_rows) > mostGroupRows || to - from > mostGroupBytes)
    throw new Refusal(
      file,
      `${file} has a group of more than ${mostGroupRows / 1e6} million rows or ${mostGroupBytes / 1e6} MB. Write it in smaller row groups.`,
    );
  await buffer.hold(from, to);
  await checkGroup(await loadLibrary(), group, schema, buffer.slice);
}

/** The values of a group, row by row. */
async function groupRows(
  group: RowGroup,
  buffer: Buffered,
  { metadata, columns }: Opened,
): Promise<readonly unknown[][]> {
  const [{ parquetRead }, { compressors }] = [
    await import('hyparquet'),
    await import('hyparquet-compressors'),
  ];
  let rows: unknown[][] = [];
  await parquetRead({
    file: buffer.file,
    metadata: { ...metadata, num_rows: group.num_rows, row_groups: [group] },
    columns: columns.map(({ element }) => element.name),
    compressors,
    parsers,
    utf8: false,
    geoparquet: false,
    onComplete: (all) => {
      rows = all;
    },
  });
  return rows;
}

/** Some rows as cells; `row` is the number of the first. */
const typedRows = (
  rows: readonly unknown[][],
  { writers }: Opened,
  row: number,
): readonly TypedRow[] =>
  rows.map((values, i) => ({
    row: row + i,
    cells: writers.map((write, at) => write(values[at])),
  }));

async function* allRows(
  source: ByteSource,
  buffer: Buffered,
  opened: Opened,
  { signal, onProgress }: RecordOptions,
): AsyncGenerator<readonly TypedRow[]> {
  yield [{ row: 1, cells: opened.columns.map(({ element }) => element.name) }];
  let row = 2;
  for (const group of opened.metadata.row_groups) {
    signal?.throwIfAborted();
    if (Number(group.num_rows) === 0) continue;
    const rows = await guarded(source, buffer, async () => {
      await hold(source.name, group, buffer, opened.schema);
      return groupRows(group, buffer, opened);
    });
    // Texts of a piece only: those of a group of a million rows take a gigabyte.
    for (const piece of inPieces(rows)) {
      const first = row;
      yield await guarded(source, buffer, async () => typedRows(piece, opened, first));
      row += piece.length;
    }
  }
  onProgress?.(source.size);
}

/**
 * The records of a Parquet file (Apache Parquet format, flat or nested), a group of rows at a time: dates as yyyy-mm-dd,
 * moments as ISO 8601, whole numbers and decimal fractions with all their digits, nested values as JSON text. The headings
 * are row 1. Throws a `Refusal` when it is damaged, cut short, encrypted or too large.
 */
export async function* parquetBatches(
  source: ByteSource,
  options: RecordOptions,
): AsyncGenerator<Batch> {
  await checkEnds(source);
  const buffer = buffered(source);
  const opened = await guarded(source, buffer, () => open(source, buffer));
  yield* typedBatches(allRows(source, buffer, opened, options), []);
}
