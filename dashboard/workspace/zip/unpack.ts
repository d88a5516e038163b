import { crc32 } from './crc32.ts';
import { type Entry, packedBytes, ZipError } from './directory.ts';
import { openScratch } from './scratch.ts';
import { drain, piecewise } from './streams.ts';

/**
 * Unpacks one entry piece by piece. Stops as soon as more comes out than the directory states, and throws ZipError
 * where fewer bytes or other ones came out.
 */
export async function unpack(zip: Blob, entry: Entry): Promise<Blob> {
  const out = await openScratch(entry.size);
  let size = 0;
  let crc = 0;
  const packed = piecewise(await packedBytes(zip, entry));
  try {
    await drain(unpacked(packed, entry.method), (piece) => {
      size += piece.length;
      if (size > entry.size) throw new ZipError('damaged');
      crc = crc32(piece, crc);
      out.add(piece);
      return out.relieve();
    });
  } catch (cause) {
    // The platform says TypeError to bytes that are not deflated ones.
    throw cause instanceof TypeError ? new ZipError('damaged') : cause;
  }
  if (size !== entry.size || crc !== entry.crc) throw new ZipError('damaged');
  return out.blob();
}

function unpacked(
  packed: ReadableStream<Uint8Array<ArrayBuffer>>,
  method: number,
): ReadableStream<Uint8Array<ArrayBuffer>> {
  if (method === 0) return packed;
  if (method === 8) return packed.pipeThrough(new DecompressionStream('deflate-raw'));
  throw new ZipError('damaged');
}
