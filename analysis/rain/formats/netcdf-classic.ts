import type { NetCDFReader } from 'netcdfjs';
import { type ByteSource, Refusal } from '../../read/outcome.ts';
import { bytesAt, refuseTruncated } from './slices.ts';
import type { AttributeValue, Dimension, NumberType, Variable, VariableFile } from './variables.ts';

type Header = NetCDFReader['header'];
type HeaderVariable = Header['variables'][number];

/** Types of the classic format by the library's names (NetCDF classic format specification). */
const types: Readonly<Record<string, readonly [NumberType, bytes: number]>> = {
  byte: ['int8', 1],
  short: ['int16', 2],
  int: ['int32', 4],
  float: ['float32', 4],
  double: ['float64', 8],
};

/** The header is looked for in this many bytes first, then in twice as many, up to `longest`. */
const firstLook = 1 << 16;
const longest = 1 << 26;

async function headerOf(source: ByteSource): Promise<Header> {
  const { NetCDFReader } = await import('netcdfjs');
  for (let length = firstLook; ; length *= 2) {
    try {
      return new NetCDFReader(await bytesAt(source, 0, length)).header;
    } catch (cause) {
      // The library's own complaints are TypeErrors; running out of bytes is a RangeError.
      if (cause instanceof TypeError || length > longest) refuseUnknown(source.name, cause);
      if (length >= source.size) refuseTruncated(source.name);
    }
  }
}

function refuseUnknown(file: string, cause: unknown): never {
  const why = cause instanceof Error ? cause.message : String(cause);
  throw new Refusal(
    file,
    `${file} cannot be read as NetCDF (${why}). Save it as NetCDF-4, or as classic NetCDF, and choose that file.`,
  );
}

/** Numbers of the file (big-endian) as an array. */
function decoded(type: NumberType, bytes: Uint8Array<ArrayBuffer>, n: number): Float64Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const at: Partial<Record<NumberType, (i: number) => number>> = {
    int8: (i) => view.getInt8(i),
    int16: (i) => view.getInt16(2 * i),
    int32: (i) => view.getInt32(4 * i),
    float32: (i) => view.getFloat32(4 * i),
    float64: (i) => view.getFloat64(8 * i),
  };
  return Float64Array.from({ length: n }, (_, i) => at[type]!(i));
}

/** Elements from one entry of a dimension to the next. */
function strides(sizes: readonly number[]): number[] {
  const out = sizes.map(() => 1);
  for (let d = sizes.length - 2; d >= 0; d--) out[d] = out[d + 1]! * sizes[d + 1]!;
  return out;
}

/** Bytes from one record to the next: all record variables, each padded to four bytes unless it is the only one. */
function recordBytes(header: Header): number {
  const records = header.variables.filter(({ record }) => record);
  const sizes = records.map((variable) => {
    const [, bytes] = types[variable.type] ?? ['int8', 1];
    const inner = variable.dimensions.slice(1).map((id) => header.dimensions[id]!.size);
    return inner.reduce((product, size) => product * size, bytes);
  });
  if (sizes.length === 1) return sizes[0]!;
  return sizes.reduce((sum, size) => sum + 4 * Math.ceil(size / 4), 0);
}

interface Stored {
  readonly source: ByteSource;
  readonly type: NumberType;
  readonly bytes: number;
  readonly offset: number;
  /** Bytes from one entry of each dimension to the next. */
  readonly steps: readonly number[];
}

/**
 * The numbers of a rectangle. The last two dimensions are fetched in one piece from the first number wanted to the last;
 * a dimension before them costs one piece an entry.
 */
async function rectangle(
  stored: Stored,
  start: readonly number[],
  count: readonly number[],
): Promise<Float64Array> {
  const outer = Math.max(0, count.length - 2);
  const [rows, columns] = [count.length > 1 ? count.at(-2)! : 1, count.at(-1) ?? 1];
  const rowStep = count.length > 1 ? stored.steps.at(-2)! : 0;
  const pieces = count.slice(0, outer).reduce((product, n) => product * n, 1);
  const out = new Float64Array(pieces * rows * columns);
  const corner = start.reduce((sum, at, d) => sum + at * stored.steps[d]!, stored.offset);
  const bytes = (rows - 1) * rowStep + columns * stored.bytes;
  for (let piece = 0; piece < pieces; piece++) {
    const offset = corner + pieceOffset(piece, count.slice(0, outer), stored.steps);
    const read = await bytesAt(stored.source, offset, bytes);
    if (read.length < bytes) refuseTruncated(stored.source.name);
    for (let row = 0; row < rows; row++) {
      const line = read.slice(row * rowStep, row * rowStep + columns * stored.bytes);
      out.set(decoded(stored.type, line, columns), (piece * rows + row) * columns);
    }
  }
  return out;
}

/** Bytes to the k-th entry of the outer dimensions, counted like an odometer. */
function pieceOffset(k: number, counts: readonly number[], steps: readonly number[]): number {
  let rest = k;
  let bytes = 0;
  for (let d = counts.length - 1; d >= 0; d--) {
    bytes += (rest % counts[d]!) * steps[d]!;
    rest = Math.floor(rest / counts[d]!);
  }
  return bytes;
}

function attributesOf(variable: HeaderVariable): ReadonlyMap<string, AttributeValue> {
  // The library's type for attributes is an empty list; the header holds name, type and value.
  const list = variable.attributes as readonly {
    readonly name: string;
    readonly value: AttributeValue;
  }[];
  return new Map(list.map(({ name, value }) => [name, value]));
}

function variableOf(source: ByteSource, header: Header, variable: HeaderVariable): Variable[] {
  const known = types[variable.type];
  if (!known) return [];
  const [type, bytes] = known;
  const dimensions = variable.dimensions.map((id, d): Dimension => {
    const { name, size } = header.dimensions[id]!;
    return { name, size: variable.record && d === 0 ? header.recordDimension.length : size };
  });
  const steps = strides(dimensions.map(({ size }) => size)).map((n) => n * bytes);
  if (variable.record) steps[0] = recordBytes(header);
  const stored = { source, type, bytes, offset: variable.offset, steps };
  return [
    {
      name: variable.name,
      type,
      dimensions,
      attributes: attributesOf(variable),
      read: (start, count) => rectangle(stored, start, count),
    },
  ];
}

/** Opens classic NetCDF (also with 64-bit offsets): the header is read, values later and only the rectangles asked for. */
export async function openClassic(source: ByteSource): Promise<VariableFile> {
  const header = await headerOf(source);
  const variables = (header.variables ?? []).flatMap((v) => variableOf(source, header, v));
  return { file: source.name, variables, close: () => {} };
}
