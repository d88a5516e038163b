import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

/** Plain data: what a plan is made of. A missing number is NaN or null, and both are written as null. */
export type Plain =
  | string
  | number
  | boolean
  | null
  | undefined
  | readonly Plain[]
  | { readonly [key: string]: Plain };

const isList = (value: Plain): value is readonly Plain[] => Array.isArray(value);

const byCodeUnit = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/**
 * The one JSON text of some data: keys sorted by UTF-16 code units, no blanks, numbers as ECMAScript writes them (RFC 8785,
 * JSON Canonicalization Scheme). Keys without a value are left out.
 */
export function canonicalJson(value: Plain): string {
  if (value === undefined || (typeof value === 'number' && !Number.isFinite(value))) return 'null';
  if (value === null || typeof value !== 'object') return JSON.stringify(value);
  if (isList(value)) return `[${value.map(canonicalJson).join(',')}]`;
  const entries = Object.entries(value)
    .filter(([, one]) => one !== undefined)
    .sort(([a], [b]) => byCodeUnit(a, b));
  return `{${entries.map(([key, one]) => `${JSON.stringify(key)}:${canonicalJson(one)}`).join(',')}}`;
}

/** SHA-256 of the canonical text, 64 hexadecimal digits. */
export const digestOf = (value: Plain): string =>
  bytesToHex(sha256(new TextEncoder().encode(canonicalJson(value))));
