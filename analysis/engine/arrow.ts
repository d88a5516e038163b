import {
  type Data,
  Field,
  Float64,
  makeData,
  RecordBatch,
  Schema,
  Struct,
  Table,
  tableToIPC,
  Utf8,
  type Vector,
} from 'apache-arrow';
import type { Column, Columns } from '../columns.ts';

/**
 * Columns as an Arrow IPC stream, as duckdb-wasm takes it in: Float64Array becomes DOUBLE, texts VARCHAR,
 * NaN and null become NULL.
 */
export function toArrowStream(columns: Columns): Uint8Array {
  const entries = Object.entries(columns.cols);
  const children = entries.map(([, column]) => toData(column, columns.n));
  const fields = entries.map(([name], i) => new Field(name, children[i]!.type, true));
  const schema = new Schema(fields);
  const data = makeData({ type: new Struct(fields), length: columns.n, nullCount: 0, children });
  return tableToIPC(new Table(schema, [new RecordBatch(schema, data)]), 'stream');
}

/** An Arrow table as plain columns. Throws on DECIMAL: our SQL casts before it selects. */
export function fromArrow(table: Table): Columns {
  const cols: Record<string, Column> = {};
  table.schema.fields.forEach((field, i) => {
    const vector = table.getChildAt(i)!;
    cols[field.name] = field.type.toString().match(/^(Utf8|Dictionary|LargeUtf8)/)
      ? Array.from(vector, (value) => (value === null ? null : String(value)))
      : toNumbers(vector, field.name);
  });
  return { n: table.numRows, cols };
}

function toNumbers(vector: Vector, name: string): Float64Array {
  if (vector.type.toString().startsWith('Decimal')) throw new Error(`cast ${name} to DOUBLE`);
  if (vector.nullCount === 0 && vector.type instanceof Float64)
    return Float64Array.from(vector.toArray());
  const out = new Float64Array(vector.length);
  for (let i = 0; i < out.length; i++) {
    const value = vector.get(i);
    out[i] = value === null ? Number.NaN : Number(value);
  }
  return out;
}

function toData(column: Column, n: number): Data {
  return column instanceof Float64Array ? numberData(column, n) : textData(column, n);
}

function numberData(column: Float64Array, n: number): Data {
  const bits = new Bits(n);
  for (let i = 0; i < n; i++) if (!Number.isNaN(column[i]!)) bits.set(i);
  return makeData({ type: new Float64(), length: n, data: column, ...bits.asNulls() });
}

/** Texts put into one before they are encoded: far faster than one by one. */
const TOGETHER = 1024;

const encoder = new TextEncoder();

/** UTF-8 of the texts, one behind the other, and where each ends. */
function textData(column: readonly (string | null)[], n: number): Data {
  const bits = new Bits(n);
  const ends = new Int32Array(n + 1);
  let bytes = new Uint8Array(n * 12 + 64);
  for (let from = 0; from < n; from += TOGETHER) {
    const texts = column.slice(from, Math.min(n, from + TOGETHER));
    texts.forEach((text, i) => {
      if (text !== null && text !== undefined) bits.set(from + i);
    });
    const all = texts.join('');
    // A UTF-16 unit takes at most three bytes of UTF-8.
    const most = ends[from]! + all.length * 3;
    if (most > bytes.length) bytes = grown(bytes, most);
    const { written } = encoder.encodeInto(all, bytes.subarray(ends[from]!));
    // As many bytes as units: all of them ASCII, so that each text is as long as its bytes.
    if (written === all.length) putLengths(texts, ends, from);
    else putEach(texts, bytes, ends, from);
  }
  const data = bytes.subarray(0, ends[n]!);
  return makeData({ type: new Utf8(), length: n, valueOffsets: ends, data, ...bits.asNulls() });
}

function putLengths(texts: readonly (string | null)[], ends: Int32Array, from: number): void {
  for (let i = 0; i < texts.length; i++) {
    ends[from + i + 1] = ends[from + i]! + (texts[i]?.length ?? 0);
  }
}

function putEach(
  texts: readonly (string | null)[],
  bytes: Uint8Array,
  ends: Int32Array,
  from: number,
): void {
  for (let i = 0; i < texts.length; i++) {
    const at = ends[from + i]!;
    ends[from + i + 1] = at + encoder.encodeInto(texts[i] ?? '', bytes.subarray(at)).written;
  }
}

function grown(bytes: Uint8Array<ArrayBuffer>, least: number): Uint8Array<ArrayBuffer> {
  const larger = new Uint8Array(Math.max(least, bytes.length * 2));
  larger.set(bytes);
  return larger;
}

/** The validity bitmap of one column. */
class Bits {
  readonly #bytes: Uint8Array;
  readonly #n: number;
  #valid = 0;
  constructor(n: number) {
    this.#n = n;
    this.#bytes = new Uint8Array(Math.ceil(n / 64) * 8);
  }
  set(i: number): void {
    this.#bytes[i >> 3]! |= 1 << (i & 7);
    this.#valid++;
  }
  asNulls(): { nullCount: number; nullBitmap: Uint8Array } {
    return { nullCount: this.#n - this.#valid, nullBitmap: this.#bytes };
  }
}
