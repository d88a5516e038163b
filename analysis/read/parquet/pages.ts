import type { ColumnMetaData, RowGroup, SchemaTree } from 'hyparquet';
import type { Library } from './library.ts';
import { checkPageRuns, insist, type Page } from './runs.ts';

/** Rows and unpacked bytes of a group, and values of a nested column, beyond which they do not fit every browser's memory. */
export const mostGroupRows = 10e6;
export const mostGroupBytes = 1e9;
const mostNested = 50e6;

/** Place of a column in the file. */
export function rangeOf(column: ColumnMetaData): readonly [from: number, to: number] {
  const from = Number(column.dictionary_page_offset || column.data_page_offset);
  return [from, from + Number(column.total_compressed_size)];
}

type Header = ReturnType<Library['parquetHeader']>;

const valuesIn = (header: Header): number =>
  header.data_page_header?.num_values ?? header.data_page_header_v2?.num_values ?? 0;

function checkHeader(header: Header, left: number): void {
  const { compressed_page_size: packed, uncompressed_page_size: unpacked } = header;
  insist(packed >= 0 && packed <= left, 'a page is longer than its column');
  insist(unpacked >= 0 && unpacked <= mostGroupBytes, 'a page unpacks to too much');
  const entries = header.dictionary_page_header?.num_values ?? 0;
  insist(entries >= 0 && entries <= unpacked, 'a dictionary has more entries than bytes');
  const nulls = header.data_page_header_v2?.num_nulls ?? 0;
  insist(nulls >= 0 && nulls <= valuesIn(header), 'a page has more blanks than values');
}

/** The bytes of a page, unpacked; null for one that holds no values. */
function pageOf(library: Library, header: Header, packed: Uint8Array, column: ColumnMetaData) {
  const unpack = (bytes: Uint8Array, length: number): Uint8Array =>
    library.decompressPage(bytes, length, column.codec, library.compressors);
  const { data_page_header: first, data_page_header_v2: second, type } = header;
  if (type === 'DATA_PAGE' && first) {
    const bytes = unpack(packed, header.uncompressed_page_size);
    const { num_values: count, encoding } = first;
    return { levels: bytes, values: bytes, count, encoding, lengths: null } satisfies Page;
  }
  if (type !== 'DATA_PAGE_V2' || !second) return null;
  const lengths = [
    second.repetition_levels_byte_length,
    second.definition_levels_byte_length,
  ] as const;
  const apart = lengths[0] + lengths[1];
  insist(Math.min(...lengths) >= 0 && apart <= packed.length, 'levels are longer than their page');
  const rest = packed.subarray(apart);
  const values = second.is_compressed ? unpack(rest, header.uncompressed_page_size - apart) : rest;
  const { num_values: count, encoding } = second;
  return { levels: packed, values, count, encoding, lengths } satisfies Page;
}

/** Checks the pages of a column. Returns the bytes that they unpack to. */
function checkColumn(
  library: Library,
  bytes: Uint8Array<ArrayBuffer>,
  column: ColumnMetaData,
  path: SchemaTree[],
): number {
  const reader = { view: new DataView(bytes.buffer), offset: 0 };
  let [values, unpacked] = [0, 0];
  // The library reads a flat column to its last row, and a nested one to its last byte.
  const goesOn = (): boolean => !library.isFlatColumn(path) || values < Number(column.num_values);
  while (reader.offset < bytes.length - 1 && goesOn()) {
    const header = library.parquetHeader(reader);
    checkHeader(header, bytes.length - reader.offset);
    unpacked += header.uncompressed_page_size;
    insist(unpacked <= mostGroupBytes, 'a column unpacks to too much');
    const next = reader.offset + header.compressed_page_size;
    values += valuesIn(header);
    insist(values <= Number(column.num_values), 'a page has more values than its column');
    const page = pageOf(library, header, bytes.subarray(reader.offset, next), column);
    if (page) checkPageRuns(library, path, page);
    reader.offset = next;
  }
  insist(values === Number(column.num_values), 'a column has other values than it says');
  return unpacked;
}

/**
 * Checks what a group of rows says of itself before the library reads it: a few bytes could ask for any amount of memory.
 * Throws where columns and rows, pages and columns, runs and pages, or sizes do not fit.
 */
export async function checkGroup(
  library: Library,
  group: RowGroup,
  schema: SchemaTree,
  bytesOf: (from: number, to: number) => Promise<ArrayBuffer>,
): Promise<void> {
  const rows = Number(group.num_rows);
  let unpacked = 0;
  for (const { meta_data: column } of group.columns) {
    if (!column) throw new Error('a column is not described');
    const path = library.getTreePath(schema, column.path_in_schema);
    const values = Number(column.num_values);
    const fits = library.isFlatColumn(path) ? values === rows : values >= 0 && values <= mostNested;
    insist(fits, 'a column has other rows than its group');
    const bytes = new Uint8Array(await bytesOf(...rangeOf(column)));
    unpacked += checkColumn(library, bytes, column, path);
    insist(unpacked <= mostGroupBytes, 'a group unpacks to too much');
  }
}
