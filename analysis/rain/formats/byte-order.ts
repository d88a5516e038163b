import type { GeoTIFFImage } from 'geotiff';
import type { ByteSource } from '../../read/outcome.ts';
import { bytesAt } from './slices.ts';

/** Tags that hold one number a tile or strip. */
const perTile = ['TileOffsets', 'TileByteCounts', 'StripOffsets', 'StripByteCounts'] as const;
const tags: Readonly<Record<(typeof perTile)[number], number>> = {
  TileOffsets: 324,
  TileByteCounts: 325,
  StripOffsets: 273,
  StripByteCounts: 279,
};

/** Bytes of a number by TIFF field type: SHORT, LONG, LONG8. */
const itemBytes: Readonly<Record<number, number>> = { 3: 2, 4: 4, 16: 8 };

function decoded(bytes: Uint8Array, size: number): number[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const at = {
    2: (i: number) => view.getUint16(2 * i),
    4: (i: number) => view.getUint32(4 * i),
    8: (i: number) => Number(view.getBigUint64(8 * i)),
  }[size];
  if (!at) throw new Error(`tile offsets of ${size} bytes`);
  return Array.from({ length: bytes.length / size }, (_, i) => at(i));
}

/**
 * The TIFF library (geotiff 3.0.5) reads long lists of tiles as little-endian whatever the file says, so in a big-endian
 * file they are read here and put where the library looks first.
 */
export async function mendByteOrder(source: ByteSource, image: GeoTIFFImage): Promise<void> {
  if (image.littleEndian) return;
  const { deferredArrays, actualizedFields } = image.fileDirectory;
  for (const name of perTile) {
    const list = deferredArrays.get(tags[name]);
    if (!list) continue;
    const size = itemBytes[list.fieldType] ?? 0;
    const bytes = await bytesAt(source, list.arrayOffset, size * list.length);
    actualizedFields.set(tags[name], decoded(bytes, size));
  }
}
