import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { cautionTexts } from '../cautions.ts';
import { filesOf, type Portfolio } from '../inputs.ts';
import type { ColumnMap } from '../mapping/column-map.ts';
import { type MadeRain, rainReport } from '../rain/making.ts';
import { digestOf } from '../read/digest.ts';
import type { ByteSource } from '../read/outcome.ts';
import { changesOf, type Settings } from '../settings.ts';
import { methodVersion, softwareName } from '../version.ts';

/** What a run was made from. */
export interface Provenance {
  readonly portfolio: Pick<Portfolio, 'report' | 'inputs' | 'weather'>;
  readonly settings: Settings;
  readonly making: MadeRain;
}

const textDigest = (text: string): string => bytesToHex(sha256(new TextEncoder().encode(text)));

/**
 * The sidecar that stands beside every exported file: what made it, from what, and the cautions. JSON text. With the
 * files of `inputs`, its `settings` (differences from what ships), `maps` and `edits` repeat the run to the byte.
 * Reads every input file once, for its digest (SHA-256 in hexadecimal).
 */
export async function about(
  { portfolio, settings, making }: Provenance,
  digest: (file: ByteSource) => Promise<string> = digestOf,
): Promise<string> {
  const rain = rainReport(making);
  const maps = mapsOf(portfolio);
  const told = {
    caution: cautionTexts,
    software: softwareName,
    method: methodVersion,
    as_of: settings.constants.as_of,
    invented_example: portfolio.report.demo,
    rain: {
      source: rain.source,
      period: rain.period,
      adjustment: rain.sentence,
      parameters: rain.parameters,
    },
    weather: portfolio.weather?.file ?? null,
    inputs: await inputRows(portfolio, maps, digest),
    settings: changesOf(settings),
    settings_sha256: textDigest(JSON.stringify(settings)),
    maps,
    edits: portfolio.inputs.edits ?? [],
  };
  return `${JSON.stringify(told, null, 2)}\n`;
}

/** How the tables were read, each way once; the list that `--map` and `Inputs.maps` take. */
function mapsOf({ report }: Provenance['portfolio']): ColumnMap[] {
  const byText = new Map(
    report.files.flatMap(({ map }) => (map ? [[JSON.stringify(map), map] as const] : [])),
  );
  return [...byText.values()];
}

/** One row for each file and what it was read as: a list with walls in it stands twice. */
async function inputRows(
  { report, inputs }: Provenance['portfolio'],
  maps: readonly ColumnMap[],
  digest: (file: ByteSource) => Promise<string>,
) {
  const digests = new Map<string, string>();
  for (const source of filesOf(inputs)) digests.set(source.name, await digest(source));
  const texts = maps.map((map) => JSON.stringify(map));
  return report.files.map(({ file, role, records, rowsRead, accepted, joined, setAside, map }) => ({
    file,
    role,
    sha256: digests.get(file) ?? null,
    records,
    rows_read: rowsRead,
    accepted,
    joined,
    set_aside: setAside,
    sheet: inputs.sheets?.[file]?.sheet ?? null,
    // Place in `maps`, counted from 1; null for what has no columns to map.
    map: map ? texts.indexOf(JSON.stringify(map)) + 1 : null,
  }));
}
