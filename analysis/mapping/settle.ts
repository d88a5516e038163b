import type { ByteSource } from '../read/outcome.ts';
import type { ColumnMap } from './column-map.ts';
import { mapFor } from './kept.ts';
import { type SheetOptions, sampleSheet } from './sample.ts';

export interface SettleOptions extends SheetOptions {
  /** Maps kept from earlier files: one with the same headings is used again. */
  readonly maps?: readonly ColumnMap[] | undefined;
}

/**
 * The map by which a file is read when its user gave none: that of an earlier file with the same headings, else the
 * guess from its headings and first rows.
 * Throws a `Refusal` when nothing in the file can be what the table needs.
 */
export async function settledMap(
  source: ByteSource,
  wanted: 'buildings' | 'walls',
  options: SettleOptions = {},
): Promise<ColumnMap> {
  // Not its progress: a first look is no part of the reading.
  const sample = await sampleSheet(source, { signal: options.signal, sheet: options.sheet });
  const kept = mapFor(options.maps ?? [], sample.headings);
  if (kept) return kept;
  // Fetched with the first file that no map is at hand for: the example brings its own.
  const [{ guessMap }, { refuseHeadings, refuseMissing }] = await Promise.all([
    import('./guess.ts'),
    import('./refuse.ts'),
  ]);
  refuseHeadings(sample, wanted);
  const { map } = guessMap(sample, wanted);
  refuseMissing(sample, map, wanted);
  return map;
}
