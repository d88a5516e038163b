import { Refusal } from '../../read/outcome.ts';
import { loadProjections, projectorOf } from '../projection.ts';

let texts: ReadonlyMap<number, string> | undefined;

/** Definition text of an EPSG code; undefined where the table has none. The table is loaded when first asked. */
export async function epsgDefinition(code: number): Promise<string | undefined> {
  if (!texts) {
    const { default: table } = await import('../../../data/grid/projections.csv?raw');
    texts = new Map([...table.matchAll(/^(\d+),(.+?)\r?$/gm)].map((m) => [Number(m[1]), m[2]!]));
  }
  return texts.get(code);
}

export const saveInDegrees =
  'Save it in longitude and latitude (WGS 84, EPSG:4326) with the program it comes from, and choose that file.';

export function refuseProjection(file: string, which: string): never {
  throw new Refusal(
    file,
    `${file} is on a map projection we do not know (${which}). ${saveInDegrees}`,
  );
}

/** The definition text, once the library has understood it; the file is refused where it does not. */
export async function usable(file: string, definition: string, which: string): Promise<string> {
  await loadProjections();
  try {
    projectorOf(definition);
    return definition;
  } catch {
    return refuseProjection(file, which);
  }
}
