import type { SchemaTree } from 'hyparquet';
import type { Library } from './library.ts';

/** A page of values, unpacked, and what its head says of it. */
export interface Page {
  /** Bytes of levels and values; in the second version of the format levels stand apart and are never packed. */
  readonly levels: Uint8Array;
  readonly values: Uint8Array;
  readonly count: number;
  readonly encoding: string;
  /** Lengths of the levels of repetition and definition, where the head of the page says them. */
  readonly lengths: readonly [number, number] | null;
}

/** Throws where something does not hold; the message is for us, the user gets a sentence of the reader. */
export function insist(holds: boolean, what: string): void {
  if (!holds) throw new Error(what);
}

const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** Bits in which numbers up to this one are written. */
const widthOf = (most: number): number => 32 - Math.clz32(most);

/** Runs of the hybrid encoding that say "this value, so many times": no run may be longer than the page has values. */
function checkRuns(library: Library, bytes: Uint8Array, width: number, count: number): void {
  const reader = { view: viewOf(bytes), offset: 0 };
  for (let seen = 0; seen < count && reader.offset < bytes.length; ) {
    const head = library.readVarInt(reader);
    const packed = (head & 1) === 1;
    const length = packed ? (head >>> 1) * 8 : head >>> 1;
    insist(packed ? width > 0 || length < count + 8 : length <= count, 'a run is too long');
    reader.offset += packed ? (head >>> 1) * width : (width + 7) >> 3;
    seen += length;
  }
}

/** Bytes of a level in the first version of the format, where its length stands before it. */
function sized(bytes: Uint8Array, at: number): readonly [from: number, to: number] {
  const length = viewOf(bytes).getUint32(at, true);
  insist(at + 4 + length <= bytes.length, 'a level is longer than its page');
  return [at + 4, at + 4 + length];
}

/** Checks the levels. Returns where the values begin. */
function checkLevels(library: Library, path: SchemaTree[], page: Page): number {
  const highest = [library.getMaxRepetitionLevel(path), library.getMaxDefinitionLevel(path)];
  let at = 0;
  highest.forEach((most, i) => {
    const length = page.lengths?.[i];
    if (most === 0) {
      at += length ?? 0;
      return;
    }
    const [from, to] = length === undefined ? sized(page.levels, at) : [at, at + length];
    checkRuns(library, page.levels.subarray(from, to), widthOf(most), page.count);
    at = to;
  });
  return page.lengths ? 0 : at;
}

const inRuns: ReadonlySet<string> = new Set(['RLE', 'RLE_DICTIONARY', 'PLAIN_DICTIONARY']);

/** Values that are places in a dictionary, or bits, come in runs as well. */
function checkValues(
  library: Library,
  { encoding, values, count }: Page,
  isBit: boolean,
  at: number,
) {
  if (encoding === 'RLE' && isBit) {
    checkRuns(library, values.subarray(...sized(values, at)), 1, count);
  } else if (inRuns.has(encoding)) {
    checkRuns(library, values.subarray(at + 1), values[at] ?? 0, count);
  }
}

/**
 * Checks the runs of a page before the library unrolls them: it would write a run of two thousand million values as it is
 * told to, and end the whole program. Throws where they do not fit the number of values.
 */
export function checkPageRuns(library: Library, path: SchemaTree[], page: Page): void {
  const at = checkLevels(library, path, page);
  checkValues(library, page, path.at(-1)!.element.type === 'BOOLEAN', at);
}
