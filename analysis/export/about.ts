import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import Papa from 'papaparse';
import cautionsCsv from '../../data/cautions.csv?raw';
import type { Portfolio } from '../inputs.ts';
import { type MadeRain, rainReport } from '../rain/making.ts';
import { changesOf, type Settings } from '../settings.ts';

export const methodVersion = '1.1';
export const softwareVersion = '0.2.0';

/** The cautions of the method, in full: id, short, text, source. */
export const cautions: readonly Readonly<Record<string, string>>[] = Papa.parse(cautionsCsv, {
  header: true,
  skipEmptyLines: true,
}).data;

/** What a run was made from. */
export interface Provenance {
  readonly portfolio: Portfolio;
  readonly settings: Settings;
  readonly making: MadeRain;
}

const digestOf = (text: string): string => bytesToHex(sha256(new TextEncoder().encode(text)));

/**
 * The sidecar that stands beside every exported file: what made it, from what, and the cautions. JSON text. Its
 * `settings` are the differences from what ships, in the form of a settings file: given back, they make the same bytes.
 */
export function about({ portfolio, settings, making }: Provenance): string {
  const { report, digests } = portfolio;
  const rain = rainReport(making);
  return `${JSON.stringify(
    {
      caution: cautions.map(({ short, text }) => `${short} ${text}`),
      software: `Rainledger ${softwareVersion}`,
      method: methodVersion,
      as_of: settings.constants.as_of,
      invented_example: report.demo,
      rain: {
        source: rain.source,
        period: rain.period,
        adjustment: rain.sentence,
        parameters: rain.parameters,
      },
      weather: portfolio.weather?.file ?? null,
      inputs: report.files.map(({ file, role, rowsRead, accepted, setAside }) => ({
        file,
        role,
        sha256: digests[role] ?? null,
        rows_read: rowsRead,
        accepted,
        set_aside: setAside.length,
      })),
      settings: changesOf(settings),
      settings_sha256: digestOf(JSON.stringify(settings)),
    },
    null,
    2,
  )}\n`;
}
