type Bytes = Uint8Array<ArrayBuffer>;

/** Bytes gathered into one Blob. */
export interface Scratch {
  readonly add: (bytes: Bytes) => void;
  /** Writes out what was added, where that has become much: to be awaited between pieces. */
  readonly relieve: () => Promise<void>;
  readonly blob: (type?: string) => Promise<Blob>;
}

/** Bytes that are held before they are written out. */
const BATCH = 4e6;
/** Bytes up to which memory serves. */
const SMALL = 8e6;
const folder = 'scratch';
/** Milliseconds after which nobody can still be using a scratch file: it belongs to a page that is gone. */
const STALE = 24 * 3600 * 1000;

/**
 * A place for about `expected` bytes. Large ones go to a file of the page's own file system (OPFS): what a browser holds
 * of Blobs in memory is limited (500 MB in Chromium where it cannot page them out), and a Blob beyond it is made without
 * complaint and cannot be read. A browser without that file system gives memory.
 */
export async function openScratch(expected: number): Promise<Scratch> {
  if (expected <= SMALL) return inMemory();
  try {
    return await onDisk();
  } catch {
    return inMemory();
  }
}

function inMemory(): Scratch {
  const pieces: Bytes[] = [];
  return {
    add: (bytes) => void pieces.push(bytes),
    relieve: async () => {},
    blob: async (type = '') => new Blob(pieces, { type }),
  };
}

async function onDisk(): Promise<Scratch> {
  const root = await navigator.storage.getDirectory();
  const directory = await root.getDirectoryHandle(folder, { create: true });
  const handle = await directory.getFileHandle(`${Math.random()}`, { create: true });
  const file = await handle.createWritable();
  let batch: Bytes[] = [];
  let size = 0;
  const write = async (): Promise<void> => {
    const [taken, length] = [batch, size];
    batch = [];
    size = 0;
    await file.write(joined(taken, length));
  };
  return {
    add: (bytes) => {
      batch.push(bytes);
      size += bytes.length;
    },
    relieve: async () => {
      if (size >= BATCH) await write();
    },
    blob: async (type = '') => {
      await write();
      await file.close();
      const written = await handle.getFile();
      return written.slice(0, written.size, type);
    },
  };
}

function joined(pieces: readonly Bytes[], length: number): Bytes {
  const all = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}

/** Removes scratch files of pages that are gone. Quiet where there is nothing to remove, or no file system. */
export async function sweepScratch(now: number): Promise<void> {
  try {
    const root = await navigator.storage.getDirectory();
    const directory = await root.getDirectoryHandle(folder);
    for await (const [name, handle] of directory.entries()) {
      if (handle.kind !== 'file') continue;
      const { lastModified } = await (handle as FileSystemFileHandle).getFile();
      if (now - lastModified > STALE) await directory.removeEntry(name);
    }
  } catch {
    // Nothing is lost by a scratch file that stays.
  }
}
