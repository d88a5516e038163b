import type { ByteSource } from './outcome.ts';

/** A file that is held in memory: what ships with the product, or what a program made. */
export function memorySource(name: string, content: string | Uint8Array): ByteSource {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  return {
    name,
    size: bytes.length,
    async *bytes() {
      yield bytes;
    },
    slice: async (from, to) => bytes.slice(from, to),
  };
}
