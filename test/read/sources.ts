import { postalCentroids } from '../../analysis/place/postal.ts';
import { readBuildings } from '../../analysis/read/buildings.ts';
import { memorySource } from '../../analysis/read/memory-source.ts';
import { type ByteSource, type ReadTable, Refusal } from '../../analysis/read/outcome.ts';
import { readWalls } from '../../analysis/read/walls.ts';
import { buildPostal } from '../../data/postal/build.ts';

/** Year the tests speak for. */
export const asOf = 2026;

export const postal = postalCentroids(buildPostal().buffer);

export const bytesOf = (content: string | Uint8Array): Uint8Array =>
  typeof content === 'string' ? new TextEncoder().encode(content) : content;

/** UTF-16 with a byte order mark. */
export function utf16(text: string, order: 'little' | 'big'): Uint8Array {
  const view = new DataView(new ArrayBuffer(2 + 2 * text.length));
  view.setUint16(0, 0xfeff, order === 'little');
  for (let i = 0; i < text.length; i += 1) {
    view.setUint16(2 + 2 * i, text.charCodeAt(i), order === 'little');
  }
  return new Uint8Array(view.buffer);
}

/** A file whose bytes come in pieces of the given sizes, taken in turn. */
export const sourceOf = (
  name: string,
  content: string | Uint8Array,
  sizes: readonly number[] = [1 << 16],
): ByteSource => ({
  ...memorySource(name, content),
  bytes: async function* () {
    const bytes = bytesOf(content);
    let turn = 0;
    for (let from = 0; from < bytes.length; turn += 1) {
      const to = from + sizes[turn % sizes.length]!;
      yield bytes.subarray(from, to);
      from = to;
    }
  },
});

export const buildings = (
  content: string | Uint8Array,
  sizes?: readonly number[],
): Promise<ReadTable> => readBuildings(sourceOf('portfolio.csv', content, sizes), { asOf, postal });

export const walls = (
  content: string | Uint8Array,
  ids: readonly string[] = ['B-1', 'B-2'],
  sizes?: readonly number[],
): Promise<ReadTable> =>
  readWalls(sourceOf('walls.csv', content, sizes), { asOf, buildingIds: new Set(ids) });

/** The sentence with which a file is refused. Throws when it is not. */
export async function refusal(reading: Promise<unknown>): Promise<string> {
  try {
    await reading;
  } catch (error) {
    if (error instanceof Refusal) return error.message;
    throw error;
  }
  throw new Error('the file was not refused');
}

/** Lines to a file's text. */
export const lines = (...rows: readonly string[]): string => `${rows.join('\n')}\n`;
