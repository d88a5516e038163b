import Papa from 'papaparse';
import cautionsCsv from '../../data/cautions.csv?raw';
import type { ReadReport } from '../session-types.ts';
import { defaultSettings, type Settings } from '../settings.ts';

export const methodVersion = '1.0';
export const softwareVersion = '0.1.0';

/** The cautions of the method, in full: id, short, text, source. */
export const cautions: readonly Readonly<Record<string, string>>[] = Papa.parse(cautionsCsv, {
  header: true,
  skipEmptyLines: true,
}).data;

export interface Provenance {
  readonly settings: Settings;
  readonly rainSource: string;
  readonly rainPeriod: string;
  /** SHA-256 of each input file, by file name. */
  readonly digests: Readonly<Record<string, string>>;
  readonly report: ReadReport;
}

/** The sidecar that stands beside every exported file: what made it, from what, and the cautions. JSON text. */
export function about(provenance: Provenance): string {
  const { settings, report } = provenance;
  const changed = Object.entries(settings).filter(
    ([name, value]) => defaultSettings[name] !== value,
  );
  return `${JSON.stringify(
    {
      caution: cautions.map(({ short, text }) => `${short} ${text}`),
      software: `Rainledger ${softwareVersion}`,
      method: methodVersion,
      as_of: settings.as_of,
      invented_example: report.demo,
      rain: { source: provenance.rainSource, period: provenance.rainPeriod },
      inputs: report.files.map(({ file, role, rowsRead, accepted, setAside }) => ({
        file,
        role,
        sha256: provenance.digests[role] ?? null,
        rows_read: rowsRead,
        accepted,
        set_aside: setAside.length,
      })),
      settings,
      settings_changed: Object.fromEntries(changed),
    },
    null,
    2,
  )}\n`;
}
