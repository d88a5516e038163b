import { Inflate } from 'fflate';
import { type ByteSource, Refusal } from '../outcome.ts';
import type { Watch } from '../text-blocks.ts';
import { crc32 } from './crc32.ts';

/** A file of an archive, as its central directory has it (PKWARE APPNOTE 4.3.12). */
interface Entry {
  readonly locked: boolean;
  readonly method: number;
  readonly crc: number;
  readonly packed: number;
  readonly unpacked: number;
  readonly at: number;
}

/** An archive whose files are read piece by piece. Names are compared in lower case. */
export interface Zip {
  readonly file: string;
  readonly names: ReadonlySet<string>;
  /** The text of a file, UTF-8. */
  readonly pieces: (name: string, watch?: Watch) => AsyncGenerator<string>;
}

/** Packed and unpacked bytes beyond which a workbook is refused. */
const mostPacked = 100e6;
const mostUnpacked = 1e9;

const endLength = 22;
const longestComment = 65_535;

/** Bytes read, and bytes unpacked, in one go: a packed byte may become a thousand. */
const readLength = 1 << 20;
const pushLength = 1 << 15;

export const damaged = (file: string, what: string): Refusal =>
  new Refusal(
    file,
    `${file} is a damaged workbook: ${what}. It was cut short or changed on its way: copy it again, or open it in the spreadsheet program and save it anew.`,
  );

export const tooLarge = (file: string, what: string): Refusal =>
  new Refusal(
    file,
    `${file} ${what}. Save the sheet as CSV (UTF-8), or cut it to the rows that are needed.`,
  );

const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** Exactly these bytes of the file. */
async function take(source: ByteSource, from: number, length: number): Promise<DataView> {
  const inside = from >= 0 && length >= 0 && from + length <= source.size;
  if (!inside) throw damaged(source.name, 'its list of parts points beyond its end');
  return viewOf(await source.slice(from, from + length));
}

/** Where the central directory stands, from the record at the end of the file (APPNOTE 4.3.16). */
async function directoryPlace(source: ByteSource): Promise<{ at: number; length: number }> {
  const length = Math.min(source.size, endLength + longestComment);
  const tail = await take(source, source.size - length, length);
  for (let at = length - endLength; at >= 0; at -= 1) {
    if (tail.getUint32(at, true) !== 0x06054b50) continue;
    return { at: tail.getUint32(at + 16, true), length: tail.getUint32(at + 12, true) };
  }
  throw damaged(source.name, 'the list of its parts, which stands at its end, is missing');
}

/** Sizes and places that do not fit 32 bits stand in an extra field (APPNOTE 4.5.3), though small ones may too. */
function wide(view: DataView, from: number, to: number, values: readonly number[]): number[] {
  let at = from;
  while (at + 4 <= to && view.getUint16(at, true) !== 1) at += 4 + view.getUint16(at + 2, true);
  at += 4;
  return values.map((value) => {
    if (value !== 0xffffffff || at + 8 > to) return value;
    at += 8;
    return Number(view.getBigUint64(at - 8, true));
  });
}

function entryAt(view: DataView, at: number): { name: string; entry: Entry; next: number } {
  const short = (offset: number): number => view.getUint16(at + offset, true);
  const long = (offset: number): number => view.getUint32(at + offset, true);
  const nameEnd = at + 46 + short(28);
  const extraEnd = nameEnd + short(30);
  const bytes = new Uint8Array(view.buffer, view.byteOffset + at + 46, short(28));
  const name = new TextDecoder('utf-8').decode(bytes).replaceAll('\\', '/').toLowerCase();
  const [unpacked, packed, place] = wide(view, nameEnd, extraEnd, [long(24), long(20), long(42)]);
  return {
    name,
    entry: {
      locked: (short(8) & 1) === 1,
      method: short(10),
      crc: long(16),
      packed: packed!,
      unpacked: unpacked!,
      at: place!,
    },
    next: extraEnd + short(32),
  };
}

function entriesIn(file: string, view: DataView): Map<string, Entry> {
  const entries = new Map<string, Entry>();
  try {
    for (let at = 0; at + 46 <= view.byteLength && view.getUint32(at, true) === 0x02014b50; ) {
      const { name, entry, next } = entryAt(view, at);
      entries.set(name, entry);
      at = next;
    }
  } catch {
    throw damaged(file, 'the list of its parts cannot be read');
  }
  return entries;
}

/** Packed bytes of a file, in pieces small enough to be unpacked. */
async function* packedPieces(source: ByteSource, { at, packed }: Entry, { signal }: Watch) {
  const head = await take(source, at, 30);
  if (head.getUint32(0, true) !== 0x04034b50)
    throw damaged(source.name, 'a part is not in its place');
  const from = at + 30 + head.getUint16(26, true) + head.getUint16(28, true);
  for (let done = 0; done < packed; done += readLength) {
    signal?.throwIfAborted();
    const view = await take(source, from + done, Math.min(readLength, packed - done));
    const bytes = new Uint8Array(view.buffer, view.byteOffset, view.byteLength);
    for (let i = 0; i < bytes.length; i += pushLength) yield bytes.subarray(i, i + pushLength);
  }
}

/** Unpacks a piece; without one, the end. */
function unpacking(file: string, method: number): (piece?: Uint8Array) => Uint8Array[] {
  if (method === 0) return (piece) => (piece ? [piece] : []);
  if (method !== 8)
    throw damaged(file, `a part is packed in a way (${method}) that workbooks never are`);
  let out: Uint8Array[] = [];
  const inflate = new Inflate((bytes) => out.push(bytes));
  return (piece) => {
    out = [];
    try {
      inflate.push(piece ?? new Uint8Array(0), piece === undefined);
    } catch {
      throw damaged(file, 'a part of it cannot be unpacked');
    }
    return out;
  };
}

/** The bytes of a file, checked against its size and check sum; `spent` counts what the whole archive unpacked to. */
async function* unpacked(
  source: ByteSource,
  entry: Entry,
  watch: Watch,
  spent: { bytes: number; most: number },
) {
  const { name } = source;
  if (entry.locked) throw damaged(name, 'a part of it is locked with a password');
  const unpack = unpacking(name, entry.method);
  let length = 0;
  let crc = 0;
  const checked = (bytes: Uint8Array): Uint8Array => {
    length += bytes.length;
    spent.bytes += bytes.length;
    crc = crc32(bytes, crc);
    if (spent.bytes <= spent.most) return bytes;
    throw tooLarge(name, `unpacks to more than ${spent.most / 1e6} MB`);
  };
  for await (const piece of packedPieces(source, entry, watch)) {
    for (const bytes of unpack(piece)) yield checked(bytes);
  }
  for (const bytes of unpack()) yield checked(bytes);
  if (length !== entry.unpacked || crc !== entry.crc)
    throw damaged(name, 'the check sum of a part does not fit its content');
}

async function* decoded(file: string, pieces: AsyncIterable<Uint8Array>): AsyncGenerator<string> {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  const text = (bytes?: Uint8Array): string => {
    try {
      return bytes ? decoder.decode(bytes, { stream: true }) : decoder.decode();
    } catch {
      throw damaged(file, 'a part of it is not UTF-8 text');
    }
  };
  for await (const bytes of pieces) yield text(bytes);
  yield text();
}

/**
 * Opens an archive by its central directory. Throws a `Refusal` where it is damaged or larger than 100 MB, and when what is
 * read of it unpacks to more than `most` bytes.
 */
export async function openZip(source: ByteSource, most = mostUnpacked): Promise<Zip> {
  const { name: file, size } = source;
  if (size > mostPacked) throw tooLarge(file, `is larger than ${mostPacked / 1e6} MB`);
  const { at, length } = await directoryPlace(source);
  const entries = entriesIn(file, await take(source, at, length));
  const spent = { bytes: 0, most };
  return {
    file,
    names: new Set(entries.keys()),
    pieces: (name, watch = {}) => {
      const entry = entries.get(name.toLowerCase());
      if (!entry) throw damaged(file, `its part ${name} is missing`);
      return decoded(file, unpacked(source, entry, watch, spent));
    },
  };
}
