/** An entry as the central directory of a ZIP states it (PKWARE APPNOTE 6.3, 4.3.12). */
export interface Entry {
  readonly name: string;
  /** 0 stored, 8 deflated. */
  readonly method: number;
  readonly crc: number;
  readonly packedSize: number;
  readonly size: number;
  /** Where its local header begins. */
  readonly offset: number;
}

/** Why a ZIP cannot be read; the sentences are the reader's. */
export type ZipFault =
  | 'not a zip'
  | 'cut short'
  | 'too large for this zip'
  | 'encrypted'
  | 'damaged'
  | 'overlapping';

export class ZipError extends Error {
  readonly fault: ZipFault;
  constructor(fault: ZipFault) {
    super(fault);
    this.name = 'ZipError';
    this.fault = fault;
  }
}

const signature = { local: 0x04034b50, directory: 0x02014b50, end: 0x06054b50 };
const size = { local: 30, directory: 46, end: 22 };
/** The end record may be followed by a comment as long as this. */
const LONGEST_COMMENT = 0xffff;
/** A directory larger than this is none of ours: 64 k entries of short names take 6 MB. */
const LARGEST_DIRECTORY = 32e6;

const viewOf = async (blob: Blob, from: number, to: number): Promise<DataView> =>
  new DataView(await blob.slice(from, to).arrayBuffer());

/** The entries of a ZIP, from its directory alone: nothing is unpacked. Throws ZipError. */
export async function readDirectory(zip: Blob): Promise<readonly Entry[]> {
  const end = await findEnd(zip);
  const directory = await viewOf(zip, end.from, end.from + end.length);
  const entries: Entry[] = [];
  let at = 0;
  for (let i = 0; i < end.count; i++) {
    const [entry, next] = readEntry(directory, at);
    entries.push(entry);
    at = next;
  }
  refuseOverlap(entries, end.from);
  return entries;
}

async function findEnd(zip: Blob): Promise<{ from: number; length: number; count: number }> {
  const from = Math.max(0, zip.size - size.end - LONGEST_COMMENT);
  const tail = await viewOf(zip, from, zip.size);
  for (let at = tail.byteLength - size.end; at >= 0; at--) {
    if (tail.getUint32(at, true) !== signature.end) continue;
    if (at + size.end + tail.getUint16(at + 20, true) !== tail.byteLength) continue;
    const count = tail.getUint16(at + 10, true);
    const length = tail.getUint32(at + 12, true);
    const start = tail.getUint32(at + 16, true);
    if (count === 0xffff || length === 0xffffffff || start === 0xffffffff)
      throw new ZipError('too large for this zip');
    if (start + length !== from + at || length > LARGEST_DIRECTORY) throw new ZipError('damaged');
    return { from: start, length, count };
  }
  throw new ZipError((await beginsLikeZip(zip)) ? 'cut short' : 'not a zip');
}

async function beginsLikeZip(zip: Blob): Promise<boolean> {
  const head = await viewOf(zip, 0, 4);
  return head.byteLength === 4 && head.getUint32(0, true) === signature.local;
}

function readEntry(directory: DataView, at: number): [Entry, number] {
  if (at + size.directory > directory.byteLength) throw new ZipError('damaged');
  if (directory.getUint32(at, true) !== signature.directory) throw new ZipError('damaged');
  const nameLength = directory.getUint16(at + 28, true);
  const rest = directory.getUint16(at + 30, true) + directory.getUint16(at + 32, true);
  const next = at + size.directory + nameLength + rest;
  if (next > directory.byteLength) throw new ZipError('damaged');
  if (directory.getUint16(at + 8, true) & 1) throw new ZipError('encrypted');
  const entry = {
    name: textOf(directory, at + size.directory, nameLength),
    method: directory.getUint16(at + 10, true),
    crc: directory.getUint32(at + 16, true),
    packedSize: directory.getUint32(at + 20, true),
    size: directory.getUint32(at + 24, true),
    offset: directory.getUint32(at + 42, true),
  };
  return [entry, next];
}

function textOf(view: DataView, at: number, length: number): string {
  const bytes = new Uint8Array(view.buffer, view.byteOffset + at, length);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new ZipError('damaged');
  }
}

/** Entries that share bytes are how a small file claims to be a huge one. */
function refuseOverlap(entries: readonly Entry[], directory: number): void {
  const inOrder = entries.toSorted((a, b) => a.offset - b.offset);
  inOrder.forEach((entry, i) => {
    const limit = inOrder[i + 1]?.offset ?? directory;
    if (entry.offset + size.local + entry.packedSize > limit) throw new ZipError('overlapping');
  });
}

/** The packed bytes of an entry. Throws ZipError where its local header says something else than the directory. */
export async function packedBytes(zip: Blob, entry: Entry): Promise<Blob> {
  const header = await viewOf(zip, entry.offset, entry.offset + size.local);
  if (header.byteLength < size.local || header.getUint32(0, true) !== signature.local)
    throw new ZipError('damaged');
  const nameLength = header.getUint16(26, true);
  const nameAt = entry.offset + size.local;
  const name = await viewOf(zip, nameAt, nameAt + nameLength);
  if (textOf(name, 0, name.byteLength) !== entry.name) throw new ZipError('damaged');
  const from = nameAt + nameLength + header.getUint16(28, true);
  if (from + entry.packedSize > zip.size) throw new ZipError('damaged');
  return zip.slice(from, from + entry.packedSize);
}
