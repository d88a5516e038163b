import type { ParquetParsers, SchemaElement } from 'hyparquet';
import { dayText, momentText, timeText } from '../day-text.ts';
import { cellOf } from '../object-rows.ts';
import type { Cell } from '../typed-rows.ts';

/** Text of bytes that no annotation explains; those that are no text are shown in hexadecimal digits. */
function textOf(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
  }
}

/** How values come out of the file: dates and moments as text, since the analysis has no clock. */
export const parsers: Partial<ParquetParsers> = {
  dateFromDays: dayText,
  timestampFromMilliseconds: (millis) => momentText(BigInt(millis) * 1_000_000n),
  timestampFromMicroseconds: (micros) => momentText(BigInt(micros) * 1000n),
  timestampFromNanoseconds: (nanos) => momentText(BigInt(nanos)),
  jsonFromBytes: (bytes) => bytes && textOf(bytes),
};

const signed = (bytes: Uint8Array): bigint => {
  const value = bytes.reduce((sum, byte) => (sum << 8n) | BigInt(byte), 0n);
  return BigInt.asIntN(bytes.length * 8, value);
};

/** A decimal fraction by its digits and how many of them stand after the point, none lost. */
export function decimalText(digits: bigint, scale: number): string {
  if (scale <= 0) return String(digits * 10n ** BigInt(-scale));
  const text = String(digits < 0n ? -digits : digits).padStart(scale + 1, '0');
  return `${digits < 0n ? '-' : ''}${text.slice(0, -scale)}.${text.slice(-scale)}`;
}

const decimalCell =
  (scale: number) =>
  (value: unknown): Cell =>
    value instanceof Uint8Array
      ? decimalText(signed(value), scale)
      : decimalText(BigInt(value as number | bigint), scale);

/** The shortest number that a float of 32 bits can mean: 47.61, not 47.61000061035156. */
export function shortFloat(value: number): number {
  for (let digits = 6; digits < 9; digits += 1) {
    const short = Number(value.toPrecision(digits));
    if (Math.fround(short) === value) return short;
  }
  return value;
}

const perSecond = { MILLIS: 1000n, MICROS: 1_000_000n, NANOS: 1_000_000_000n } as const;

const timeCell =
  (unit: keyof typeof perSecond) =>
  (value: unknown): Cell => {
    const [count, second] = [BigInt(value as number | bigint), perSecond[unit]];
    return timeText(Number(count / second), Number((count % second) * (1_000_000_000n / second)));
  };

/** A moment of universal time says so. */
const universal = (value: unknown): Cell => {
  const text = String(value);
  return text.includes('T') ? `${text}Z` : `${text}T00:00:00Z`;
};

const plainCell = (value: unknown): Cell =>
  value instanceof Uint8Array ? textOf(value) : cellOf(value);

/** Whether the digits of decimal fractions are asked for instead of what the library makes of them. */
export const isDecimal = ({ converted_type, logical_type }: SchemaElement): boolean =>
  converted_type === 'DECIMAL' || logical_type?.type === 'DECIMAL';

function presentCell(element: SchemaElement): (value: unknown) => Cell {
  const { logical_type: logical, converted_type: converted, type } = element;
  if (isDecimal(element))
    return decimalCell(element.scale ?? (logical?.type === 'DECIMAL' ? logical.scale : 0));
  if (logical?.type === 'TIMESTAMP' && logical.isAdjustedToUTC) return universal;
  if (logical?.type === 'TIME') return timeCell(logical.unit);
  if (converted === 'TIME_MILLIS') return timeCell('MILLIS');
  if (converted === 'TIME_MICROS') return timeCell('MICROS');
  return type === 'FLOAT' ? (value) => shortFloat(value as number) : plainCell;
}

/** How values of a column that holds no other values are written. */
export function cellWriter(element: SchemaElement): (value: unknown) => Cell {
  const present = presentCell(element);
  return (value) => (value === null || value === undefined ? '' : present(value));
}
