/** Remainders of single bytes for the polynomial of ISO 3309, as PKWARE APPNOTE 4.4.7 has it. */
const table = Int32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit += 1) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest;
});

/** The check sum of bytes that follow others whose check sum is `before`. */
export function crc32(bytes: Uint8Array, before = 0): number {
  let crc = ~before;
  for (let i = 0; i < bytes.length; i += 1) crc = (crc >>> 8) ^ table[(crc ^ bytes[i]!) & 255]!;
  return ~crc >>> 0;
}
