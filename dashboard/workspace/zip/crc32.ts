const table = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let bit = 0; bit < 8; bit++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c;
});

/** CRC-32 of a ZIP entry (APPNOTE 4.4.7), piece by piece: `before` is the answer for what came before, 0 at first. */
export function crc32(bytes: Uint8Array, before = 0): number {
  let c = ~before;
  for (let i = 0; i < bytes.length; i++) c = table[(c ^ bytes[i]!) & 0xff]! ^ (c >>> 8);
  return ~c >>> 0;
}
