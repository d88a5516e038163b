import { type Decode, decoderOf } from './decode.ts';
import { notText, sniff } from './encoding.ts';
import type { ByteSource } from './outcome.ts';

export interface Watch {
  readonly signal?: AbortSignal | undefined;
  /** Called after every piece with the number of bytes read so far. */
  readonly onProgress?: ((bytesRead: number) => void) | undefined;
}

/** Characters of a block. Blocks are cut at exact lengths, so that the pieces in which the bytes came leave no trace. */
const blockLength = 1 << 18;

const headLength = 1024;

/** The bytes in pieces of at most a block, the first of at least `headLength` (or the whole file). */
async function* pieces(source: ByteSource, watch: Watch): AsyncGenerator<Uint8Array> {
  let head = new Uint8Array(0);
  let begun = false;
  let bytesRead = 0;
  for await (const chunk of source.bytes()) {
    watch.signal?.throwIfAborted();
    for (let from = 0; from < chunk.length; from += blockLength) {
      const piece = chunk.subarray(from, from + blockLength);
      bytesRead += piece.length;
      watch.onProgress?.(bytesRead);
      if (begun) {
        yield piece;
        watch.signal?.throwIfAborted();
        continue;
      }
      head = joined(head, piece);
      if (head.length < headLength) continue;
      begun = true;
      yield head;
    }
  }
  if (!begun) yield head;
}

function joined(a: Uint8Array, b: Uint8Array): Uint8Array<ArrayBuffer> {
  const both = new Uint8Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}

const checked = (file: string, block: string): string => {
  if (block.includes('\0')) throw notText(file);
  return block;
};

/**
 * The text of a file in blocks of exactly `blockLength` characters (the last is shorter), without its byte order mark;
 * `say` hears how it was decoded where that is not certain. Bytes that are not UTF-8 are read as Windows-1252.
 * Throws a `Refusal` when the file is empty, binary, another format, or text of which the encoding cannot be told; the
 * signal's reason when aborted.
 */
export async function* textBlocks(
  source: ByteSource,
  watch: Watch = {},
  say: (note: string) => void = () => {},
): AsyncGenerator<string> {
  let decode: Decode | undefined;
  let text = '';
  for await (const piece of pieces(source, watch)) {
    decode ??= decoderOf(source.name, sniff(source.name, piece), say);
    text += decode(piece);
    for (; text.length >= blockLength; text = text.slice(blockLength)) {
      yield checked(source.name, text.slice(0, blockLength));
    }
  }
  text += decode?.() ?? '';
  if (text) yield checked(source.name, text);
}
