import { Zip, type ZipInputFile } from 'fflate';
import { crc32 } from './crc32.ts';
import { openScratch, type Scratch } from './scratch.ts';
import { drain, piecewise, watched } from './streams.ts';

export interface Packable {
  readonly path: string;
  readonly content: Blob;
}

/** Formats that are packed already: packing them again costs time and saves nothing. */
const packed = /\.(xlsx|parquet|zip|gz|nc4|png|jpe?g|webp)$/i;

const method = { stored: 0, deflated: 8 } as const;

/**
 * Packs as a ZIP, piece by piece, so that the page stays responsive; `time` is written into every entry. The platform
 * packs: fflate 0.8.3 frames well, but its own streaming Deflate writes wrong back-references for some inputs.
 */
export async function pack(entries: readonly Packable[], time: Date, type: string): Promise<Blob> {
  const out = await openScratch(entries.reduce((sum, { content }) => sum + content.size, 0));
  const zip = new Zip((failure, bytes) => {
    if (failure) throw failure;
    out.add(bytes);
  });
  for (const entry of entries) await addEntry(zip, out, entry, time);
  zip.end();
  return out.blob(type);
}

async function addEntry(
  zip: Zip,
  out: Scratch,
  { path, content }: Packable,
  mtime: Date,
): Promise<void> {
  const compression = packed.test(path) ? method.stored : method.deflated;
  const entry: ZipInputFile = { filename: path, size: 0, crc: 0, compression, mtime };
  zip.add(entry);
  const counted = piecewise(content).pipeThrough(
    watched((piece) => {
      entry.size += piece.length;
      entry.crc = crc32(piece, entry.crc);
    }),
  );
  const bytes = compression ? counted.pipeThrough(new CompressionStream('deflate-raw')) : counted;
  await drain(bytes, (piece) => {
    entry.ondata!(null, piece, false);
    return out.relieve();
  });
  entry.ondata!(null, new Uint8Array(0), true);
}
