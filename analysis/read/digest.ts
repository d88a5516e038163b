import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { ByteSource } from './outcome.ts';

/** SHA-256 of a file in hexadecimal, read once, piece by piece. */
export async function digestOf(source: ByteSource): Promise<string> {
  const hash = sha256.create();
  for await (const chunk of source.bytes()) hash.update(chunk);
  return bytesToHex(hash.digest());
}
