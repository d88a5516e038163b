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

function textData(column: readonly (string | null)[], n: number): Data {
  const bits = new Bits(n);
  const offsets = new Int32Array(n + 1);
  let bytes = new Uint8Array(n * 12 + 64);
  let at = 0;
  const encoder = new TextEncoder();
  for (let i = 0; i < n; i++) {
    const value = column[i] ?? null;
    if (value !== null) {
      bits.set(i);
      // A UTF-16 unit takes at most three bytes of UTF-8.
      if (at + value.length * 3 > bytes.length) bytes = grown(bytes, at + value.length * 3);
      at += encoder.encodeInto(value, bytes.subarray(at)).written;
    }
    offsets[i + 1] = at;
  }
  const data = bytes.subarray(0, at);
  return makeData({ type: new Utf8(), length: n, valueOffsets: offsets, data, ...bits.asNulls() });
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
