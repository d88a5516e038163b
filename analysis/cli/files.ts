import {
  closeSync,
  createReadStream,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { open } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Assets } from '../inputs.ts';
import { postalCentroids } from '../place/postal.ts';
import { decodeGrid } from '../rain/grid.ts';
import { type ByteSource, Refusal } from '../read/outcome.ts';
import { decodeStations } from '../stations/built-in.ts';

/** A file of the user's as a source of bytes. Throws a Refusal where there is no such file. */
export function fileSource(path: string): ByteSource {
  const name = basename(path);
  let size: number;
  try {
    const stat = statSync(path);
    if (!stat.isFile())
      throw new Refusal(name, `${path} is not a file. Give the path of a CSV file.`);
    size = stat.size;
  } catch (cause) {
    if (cause instanceof Refusal) throw cause;
    throw new Refusal(name, `There is no file ${path}, or it may not be read. Check the path.`);
  }
  return {
    name,
    size,
    bytes: () => createReadStream(path, { highWaterMark: 1 << 20 }),
    slice: (from, to) => part(path, from, to),
  };
}

async function part(path: string, from: number, to: number): Promise<Uint8Array> {
  const handle = await open(path);
  try {
    const { bytesRead, buffer } = await handle.read(new Uint8Array(to - from), 0, to - from, from);
    return buffer.subarray(0, bytesRead);
  } finally {
    await handle.close();
  }
}

/** Files that are written piece by piece to temporary names, and then are all there or not at all. */
export interface WholeFiles {
  readonly put: (path: string, content: string | Uint8Array) => void;
  /** Gives every file its name. */
  readonly move: () => void;
  readonly discard: () => void;
}

export function wholeFiles(): WholeFiles {
  const open = new Map<string, number>();
  const part = (path: string): string => `${path}.${process.pid}.part`;
  const begin = (path: string): number => {
    mkdirSync(dirname(path), { recursive: true });
    const handle = openSync(part(path), 'w');
    open.set(path, handle);
    return handle;
  };
  const closed = (): string[] => {
    for (const handle of open.values()) closeSync(handle);
    const paths = [...open.keys()];
    open.clear();
    return paths;
  };
  return {
    put: (path, content) => writeFileSync(open.get(path) ?? begin(path), content),
    move: () => {
      for (const path of closed()) renameSync(part(path), path);
    },
    discard: () => {
      for (const path of closed()) rmSync(part(path), { force: true });
    },
  };
}

/** Writes all of the files or none. */
export function writeWhole(files: Readonly<Record<string, string | Uint8Array>>): void {
  const whole = wholeFiles();
  try {
    for (const [path, content] of Object.entries(files)) whole.put(path, content);
    whole.move();
  } catch (cause) {
    whole.discard();
    throw notWritten(Object.keys(files)[0] ?? '', cause);
  }
}

/** That a file could not be written, in words. */
export const notWritten = (path: string, cause: unknown): Refusal =>
  new Refusal(
    basename(path),
    `Nothing was written: ${cause instanceof Error ? cause.message : String(cause)}.`,
  );

/** The built assets, from data/built/ of the package: the same path from the source and from dist/cli/. */
export function readAssets(): Assets {
  const path = (name: string) =>
    fileURLToPath(new URL(`../../data/built/${name}`, import.meta.url));
  const bytes = (name: string): ArrayBuffer => {
    const file = readFileSync(path(name));
    return file.buffer.slice(file.byteOffset, file.byteOffset + file.byteLength) as ArrayBuffer;
  };
  return {
    grid: decodeGrid(bytes('annual-precip.bin')),
    stations: decodeStations(readFileSync(path('us-stations.json'), 'utf8')),
    postal: postalCentroids(bytes('us-postal.bin')),
  };
}
