/** What the two NetCDF readers have in common: variables by name, read by rectangle. */

export type AttributeValue = string | number | readonly number[];

export interface Dimension {
  readonly name: string;
  readonly size: number;
}

/** Number types of a variable; text is none of ours. */
export type NumberType =
  | 'int8'
  | 'uint8'
  | 'int16'
  | 'uint16'
  | 'int32'
  | 'uint32'
  | 'float32'
  | 'float64';

export interface Variable {
  readonly name: string;
  readonly type: NumberType;
  readonly dimensions: readonly Dimension[];
  readonly attributes: ReadonlyMap<string, AttributeValue>;
  /** Stored numbers from `start` on, `count` of them along each dimension, the last dimension fastest. */
  readonly read: (start: readonly number[], count: readonly number[]) => Promise<ArrayLike<number>>;
}

/** A NetCDF file opened for reading. */
export interface VariableFile {
  readonly file: string;
  readonly variables: readonly Variable[];
  readonly close: () => void;
}

export const textOf = (variable: Variable, name: string): string => {
  const value = variable.attributes.get(name);
  return typeof value === 'string' ? value.replaceAll('\0', '').trim() : '';
};

const numbersOf = (variable: Variable, name: string): readonly number[] => {
  const value = variable.attributes.get(name);
  if (typeof value === 'number') return [value];
  return typeof value === 'object' ? value : [];
};

/** All values of a variable with one dimension, unpacked. */
export async function whole(variable: Variable): Promise<Float64Array> {
  const counts = variable.dimensions.map(({ size }) => size);
  return Float64Array.from(
    await variable.read(
      counts.map(() => 0),
      counts,
    ),
    unpacker(variable),
  );
}

/** What stands where nothing was written (netcdf.h, NC_FILL_…); bytes have no such value. */
const unwritten: Readonly<Partial<Record<NumberType, number>>> = {
  int16: -32767,
  uint16: 65535,
  int32: -2147483647,
  uint32: 4294967295,
  float32: Math.fround(9.969209968386869e36),
  float64: 9.969209968386869e36,
};

/** Values a number of this type can tell apart. */
const stored = (type: NumberType, x: number): number => (type === 'float32' ? Math.fround(x) : x);

function missingIn(variable: Variable): ReadonlySet<number> {
  const { type } = variable;
  const fill = numbersOf(variable, '_FillValue');
  const named = [...fill, ...numbersOf(variable, 'missing_value')];
  const silent = fill.length === 0 ? unwritten[type] : undefined;
  return new Set([...named.map((x) => stored(type, x)), ...(silent === undefined ? [] : [silent])]);
}

/** Bounds of stored numbers that are data (CF 1.11, 2.5.1). */
function rangeIn(variable: Variable): readonly [number, number] {
  const [low, high] = numbersOf(variable, 'valid_range');
  const least = low ?? numbersOf(variable, 'valid_min')[0] ?? Number.NEGATIVE_INFINITY;
  return [least, high ?? numbersOf(variable, 'valid_max')[0] ?? Number.POSITIVE_INFINITY];
}

/** From stored numbers to values: `_FillValue`, `missing_value` and the valid range first, then scale and offset (CF 8.1). */
export function unpacker(variable: Variable): (raw: number) => number {
  const missing = missingIn(variable);
  const [least, greatest] = rangeIn(variable);
  const scale = numbersOf(variable, 'scale_factor')[0] ?? 1;
  const offset = numbersOf(variable, 'add_offset')[0] ?? 0;
  return (raw) =>
    missing.has(raw) || !(raw >= least && raw <= greatest) ? Number.NaN : raw * scale + offset;
}
