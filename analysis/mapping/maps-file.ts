import { Refusal } from '../read/outcome.ts';
import type { ColumnMap } from './column-map.ts';
import { doubtIn, mapIn } from './map-check.ts';

/** Column maps as a file that `readMaps` takes: JSON, a list. */
export const mapsText = (maps: readonly ColumnMap[]): string =>
  `${JSON.stringify(maps, null, 2)}\n`;

function parsed(text: string, file: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : String(cause);
    throw new Refusal(file, `${file} is not a file of column maps: ${why}. It must be JSON.`);
  }
}

/**
 * Reads column maps from JSON: one, or a list. What a map leaves out is taken as absent (`unit`, `wall`, `fills`, `groups`,
 * `words`). Throws a `Refusal` that says which part cannot be used and what may stand there.
 */
export function readMaps(text: string, file: string): readonly ColumnMap[] {
  const maps = [parsed(text, file)].flat();
  if (maps.length === 0) {
    throw new Refusal(
      file,
      `${file} holds no column map. Write one with --write-map, change it and give it back.`,
    );
  }
  return maps.map((map, i) => {
    const doubt = doubtIn(map);
    if (doubt === null) return mapIn(map);
    const which = maps.length > 1 ? `, map ${i + 1}` : '';
    throw new Refusal(file, `${file}${which}: ${doubt}`);
  });
}
