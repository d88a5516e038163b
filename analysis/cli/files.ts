import {
  createReadStream,
  mkdirSync,
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

/** Writes all of the files or none: each to a temporary name first, then moved. */
export function writeWhole(files: Readonly<Record<string, string | Uint8Array>>): void {
  const parts = Object.keys(files).map((path) => [path, `${path}.${process.pid}.part`] as const);
  try {
    for (const [path, part] of parts) {
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(part, files[path]!);
    }
    for (const [path, part] of parts) renameSync(part, path);
  } catch (cause) {
    for (const [, part] of parts) rmSync(part, { force: true });
    const why = cause instanceof Error ? cause.message : String(cause);
    throw new Refusal(basename(parts[0]?.[0] ?? ''), `Nothing was written: ${why}.`);
  }
}

/** The two built assets, from data/built/ of the package: the same path from the source and from dist/cli/. */
export function readAssets(): Assets {
  const bytes = (name: string): ArrayBuffer => {
    const file = readFileSync(fileURLToPath(new URL(`../../data/built/${name}`, import.meta.url)));
    return file.buffer.slice(file.byteOffset, file.byteOffset + file.byteLength) as ArrayBuffer;
  };
  return {
    grid: decodeGrid(bytes('annual-precip.bin')),
    postal: postalCentroids(bytes('us-postal.bin')),
  };
}
