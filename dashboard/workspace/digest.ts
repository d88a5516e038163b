/** Bytes read at a time. */
const SLICE = 1 << 20;
/** Bytes handed on at a time: what is hashed, packed or unpacked at one go on the page's own thread. */
const PIECE = 1 << 15;

/** A blob in small pieces, with a turn of the event loop between two slices. Rejects where it cannot be read. */
export async function* pieces(blob: Blob): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  for (let from = 0; from < blob.size; from += SLICE) {
    const bytes = new Uint8Array(await blob.slice(from, from + SLICE).arrayBuffer());
    for (let at = 0; at < bytes.length; at += PIECE) yield bytes.subarray(at, at + PIECE);
  }
}

/** SHA-256 of a blob of any size as 64 hexadecimal digits. Rejects where the file can no longer be read. */
export async function digestOf(blob: Blob): Promise<string> {
  const [{ sha256 }, { bytesToHex }] = await Promise.all([
    import('@noble/hashes/sha2.js'),
    import('@noble/hashes/utils.js'),
  ]);
  const hash = sha256.create();
  for await (const piece of pieces(blob)) hash.update(piece);
  return bytesToHex(hash.digest());
}
