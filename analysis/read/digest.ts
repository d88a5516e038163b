import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { ByteSource } from './outcome.ts';

/** A source that hashes what passes through it; `digest()` is its SHA-256 in hexadecimal once it was read to the end. */
export function digesting(source: ByteSource): { source: ByteSource; digest: () => string } {
  const hash = sha256.create();
  async function* bytes() {
    for await (const chunk of source.bytes()) {
      hash.update(chunk);
      yield chunk;
    }
  }
  return { source: { ...source, bytes }, digest: () => bytesToHex(hash.digest()) };
}
