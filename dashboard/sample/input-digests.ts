import { digestOf } from '../../analysis/read/digest.ts';
import type { ByteSource } from '../../analysis/read/outcome.ts';
import type { Inputs } from '../../analysis/session-types.ts';

/** The files that a run is made from, as the plan names them. */
const filesOf = ({ buildings, walls, rain, wind, temperature, stations, weather }: Inputs) =>
  [buildings, ...(walls ?? []), rain, wind, temperature, stations, weather].flatMap(
    (file): ByteSource[] => (file ? [file] : []),
  );

/** SHA-256 of each file now, by name. Rejects where a file can no longer be read. */
export async function inputDigests(inputs: Inputs): Promise<Record<string, string>> {
  const digests = await Promise.all(
    filesOf(inputs).map(async (file) => [file.name, await digestOf(file)] as const),
  );
  return Object.fromEntries(digests);
}
